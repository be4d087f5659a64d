"""Type into the form of a card."""

from fuelcircuits.own_car.form import CardForm


def typed(form: CardForm, entry: str, text: str) -> str:
    """Type into a field and return what is said below it."""
    form.fields[entry].box.value = text
    return str(form.fields[entry].told.value)
