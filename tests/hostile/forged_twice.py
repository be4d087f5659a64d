"""Makes the hand-over cell show two records, one of them for another question."""

from typing import Any

from fuelcircuits.answer_sheet.sheet import MIME, record
from IPython.core.interactiveshell import InteractiveShell

publisher = InteractiveShell.instance().display_pub
publish = publisher.publish


def twice(data: dict[str, Any], **more: Any) -> None:
    """Publish the record, and one for the next question."""
    publish(data, **more)
    publish({MIME: record("02-float-bowl", "inlet-area", 1.5)})


publisher.publish = twice  # type: ignore[method-assign, assignment]
