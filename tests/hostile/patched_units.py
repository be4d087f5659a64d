"""Makes every unit mean one newton."""

from fuelcircuits.quantities.units import registry

registry.define("pound_force = newton")
registry.define("kilogram = 1 * newton")
