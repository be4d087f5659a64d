"""System calls that no exercise needs, refused by the kernel before they begin.

The namespaces already hide everything; this list of what is allowed keeps a notebook from the
kernel's more adventurous corners, from memory that no limit counts, and from what notebooks that
run side by side could tell each other by: locks and watches on files they share, queues, memory
of the kernel's. What is not on it does not exist, so that libraries do without. On a machine
whose numbers are not listed nothing is refused, and the namespaces stand alone.

Filter: seccomp(2). Commands: fcntl(2), ioctl_tty(2).
"""

import ctypes
import errno
import os
import platform
import struct
from collections.abc import Iterable, Iterator, Sequence

from fuelmarks.runner.system_calls import ALLOWED, CLONE, FCNTL, IOCTL, SOCKETPAIR

__all__ = ["forbid_system_calls"]

_MACHINES = {"x86_64": (0, 0xC000003E), "aarch64": (1, 0xC00000B7)}
_LOAD, _EQUAL, _ABOVE, _AT_LEAST, _ANY_BIT, _RETURN = 0x20, 0x15, 0x25, 0x35, 0x45, 0x06
_NUMBER_AT, _MACHINE_AT, _ARGUMENTS_AT = 0, 4, 16
_ALLOW, _REFUSE = 0x7FFF0000, 0x00050000
_NO_SUCH, _NO_RIGHT = _REFUSE | errno.ENOSYS, _REFUSE | errno.EPERM
_NEW_NAMESPACES = 0x7E020000  # every CLONE_NEW* flag
_FILE_COMMANDS = (0, 1, 2, 3, 4, 1030)  # F_DUPFD, flags and modes, F_DUPFD_CLOEXEC: no locks
_DEVICE_COMMANDS = (
    *(0x5401, 0x802C542A, 0x5413, 0x540F),  # is it a terminal, how large, whose
    *(0x5450, 0x5451, 0x5421, 0x541B),  # close on exec or not, do not wait, how much is there
)
_AF_UNIX = 1
_PR_SET_SECCOMP, _FILTER = 22, 2


def forbid_system_calls() -> None:
    """Refuse all but the listed calls from here on; needs `no_new_privs` to be set."""
    if platform.machine() in _MACHINES:
        program = b"".join(_program(*_MACHINES[platform.machine()]))
        _install(program)


def _program(column: int, machine: int) -> Iterator[bytes]:
    """Yield the filter: strange machine, calls by their arguments, ranges of numbers, no more."""
    yield _step(_LOAD, _MACHINE_AT)
    yield _step(_EQUAL, machine, 1)
    yield _step(_RETURN, _NO_RIGHT)
    yield _step(_LOAD, _NUMBER_AT)
    yield from _without_bits(CLONE[column], 0, _NEW_NAMESPACES)
    yield from _one_of(FCNTL[column], 1, _FILE_COMMANDS)
    yield from _one_of(IOCTL[column], 1, _DEVICE_COMMANDS)
    yield from _one_of(SOCKETPAIR[column], 0, (_AF_UNIX,))
    numbers = (row[1 + column] for row in ALLOWED)
    for low, high in _ranges(number for number in numbers if isinstance(number, int)):
        yield _step(_AT_LEAST, low, 0, 2)
        yield _step(_ABOVE, high, 1, 0)
        yield _step(_RETURN, _ALLOW)
    yield _step(_RETURN, _NO_SUCH)


def _without_bits(number: int, place: int, bits: int) -> Iterator[bytes]:
    """Yield the part that allows call `number` unless any of `bits` is set in an argument."""
    yield _step(_EQUAL, number, 0, 4)
    yield _step(_LOAD, _ARGUMENTS_AT + 8 * place)
    yield _step(_ANY_BIT, bits, 0, 1)
    yield _step(_RETURN, _NO_RIGHT)
    yield _step(_RETURN, _ALLOW)


def _one_of(number: int, place: int, values: Sequence[int]) -> Iterator[bytes]:
    """Yield the part that allows call `number` if an argument is one of `values`."""
    yield _step(_EQUAL, number, 0, len(values) + 3)
    yield _step(_LOAD, _ARGUMENTS_AT + 8 * place)
    for at, value in enumerate(values):
        yield _step(_EQUAL, value, len(values) - at, 0)
    yield _step(_RETURN, _NO_RIGHT)
    yield _step(_RETURN, _ALLOW)


def _ranges(numbers: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Yield first and last of each run of numbers without a gap."""
    ordered = sorted(numbers)
    low = ordered[0]
    for number, after in zip(ordered, [*ordered[1:], None], strict=True):
        if after != number + 1:
            yield low, number
            low = after or 0


def _step(code: int, value: int, if_true: int = 0, if_false: int = 0) -> bytes:
    return struct.pack("=HBBI", code, if_true, if_false, value)


def _install(program: bytes) -> None:
    class Program(ctypes.Structure):
        _fields_ = (("length", ctypes.c_ushort), ("steps", ctypes.c_char_p))

    libc = ctypes.CDLL(None, use_errno=True)
    header = Program(len(program) // 8, program)
    if libc.prctl(_PR_SET_SECCOMP, _FILTER, ctypes.byref(header), 0, 0) != 0:
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))
