"""System calls that no exercise needs, refused by the kernel before they begin.

The namespaces already hide everything; this list keeps a notebook from the kernel's more
adventurous corners and from memory that no limit counts. On a machine whose numbers are not listed
here nothing is refused, and the namespaces stand alone.

Numbers: the kernel's ``unistd_64.h`` (x86_64) and ``asm-generic/unistd.h`` (aarch64). Filter:
seccomp(2).
"""

import ctypes
import errno
import os
import platform
import struct
from collections.abc import Sequence

__all__ = ["forbid_system_calls"]

# One row a call: name, number on x86_64, number on aarch64.
_FORBIDDEN = (
    ("add_key", (248, 217)),
    ("bpf", (321, 280)),
    ("chroot", (161, 51)),
    ("finit_module", (313, 273)),
    ("fsconfig", (431, 431)),
    ("fsmount", (432, 432)),
    ("fsopen", (430, 430)),
    ("fspick", (433, 433)),
    ("init_module", (175, 105)),
    ("io_uring_enter", (426, 426)),
    ("io_uring_register", (427, 427)),
    ("io_uring_setup", (425, 425)),
    ("kexec_load", (246, 104)),
    ("keyctl", (250, 219)),
    ("memfd_create", (319, 279)),
    ("memfd_secret", (447, 447)),
    ("mount", (165, 40)),
    ("mount_setattr", (442, 442)),
    ("move_mount", (429, 429)),
    ("name_to_handle_at", (303, 264)),
    ("open_by_handle_at", (304, 265)),
    ("open_tree", (428, 428)),
    ("perf_event_open", (298, 241)),
    ("pidfd_getfd", (438, 438)),
    ("pivot_root", (155, 41)),
    ("process_vm_readv", (310, 270)),
    ("process_vm_writev", (311, 271)),
    ("ptrace", (101, 117)),
    ("request_key", (249, 218)),
    ("setns", (308, 268)),
    ("shmget", (29, 194)),
    ("socket", (41, 198)),
    ("umount2", (166, 39)),
    ("unshare", (272, 97)),
    ("userfaultfd", (323, 282)),
)
_CLONE, _CLONE3 = (56, 220), 435
_MACHINES = {"x86_64": (0, 0xC000003E), "aarch64": (1, 0xC00000B7)}

_LOAD, _EQUAL, _AT_LEAST, _ANY_BIT, _RETURN = 0x20, 0x15, 0x35, 0x45, 0x06
_NUMBER_AT, _MACHINE_AT, _FIRST_ARGUMENT_AT = 0, 4, 16
_ALLOW, _REFUSE = 0x7FFF0000, 0x00050000
_NEW_NAMESPACES = 0x7E020000  # every CLONE_NEW* flag
_X32 = 0x40000000
_PR_SET_SECCOMP, _FILTER = 22, 2


def forbid_system_calls() -> None:
    """Refuse the listed calls from here on; needs `no_new_privs` to be set."""
    if platform.machine() in _MACHINES:
        program = b"".join(_program(*_MACHINES[platform.machine()]))
        _install(program)


def _program(column: int, machine: int) -> Sequence[bytes]:
    """Return the filter: strange machine, clone into namespaces, listed numbers, else allow."""
    numbers = [row[1][column] for row in _FORBIDDEN]
    tests = [_step(_EQUAL, number, len(numbers) - 1 - i) for i, number in enumerate(numbers)]
    return [
        _step(_LOAD, _MACHINE_AT),
        _step(_EQUAL, machine, 1),
        _step(_RETURN, _REFUSE | errno.EPERM),
        _step(_LOAD, _NUMBER_AT),
        _step(_EQUAL, _CLONE3, 0, 1),
        _step(_RETURN, _REFUSE | errno.ENOSYS),
        _step(_AT_LEAST, _X32, 0, 1),
        _step(_RETURN, _REFUSE | errno.EPERM),
        _step(_EQUAL, _CLONE[column], 0, 3),
        _step(_LOAD, _FIRST_ARGUMENT_AT),
        _step(_ANY_BIT, _NEW_NAMESPACES, len(tests) + 1, 0),
        _step(_RETURN, _ALLOW),
        *(test for test in tests[:-1]),
        _step(_EQUAL, numbers[-1], 0, 1),
        _step(_RETURN, _REFUSE | errno.EPERM),
        _step(_RETURN, _ALLOW),
    ]


def _step(code: int, value: int, if_true: int = 0, if_false: int = 0) -> bytes:
    return struct.pack("=HBBI", code, if_true, if_false, value)


def _install(program: bytes) -> None:
    class Program(ctypes.Structure):
        _fields_ = (("length", ctypes.c_ushort), ("steps", ctypes.c_char_p))

    libc = ctypes.CDLL(None, use_errno=True)
    header = Program(len(program) // 8, program)
    if libc.prctl(_PR_SET_SECCOMP, _FILTER, ctypes.byref(header), 0, 0) != 0:
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))
