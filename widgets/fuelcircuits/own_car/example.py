"""An invented car to look at before one's own: its card, and two days in April."""

from pathlib import Path

from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.own_car import OwnCar
from fuelcircuits.own_car.rounds import Round

__all__ = ["example_car"]

NAME = "example-car"
ENTRIES = {
    "engine.displacement": "2.8 L",
    "engine.cylinders": "6",
    "engine.idle_speed": "750 rpm",
    "air_path.venturi_bore": "24.2 mm",
    "air_path.throttle_bore": "31 mm",
    "high_speed.jet_bore": "1.49 mm",
    "low_speed.jet_bore": "0.59 mm",
    "float_bowl.specified_level": "15 mm",
    "float_bowl.fuel_pressure": "5.0 psi",
}
DAYS = (
    Round(
        "2026-04-18",
        altitude=300,
        temperature=18,
        ethanol=0.05,
        readings={
            "idle-vacuum": "13.6 inHg",
            "idle-mixture": "1.34",
            "off-idle-mixture": "1.09",
            "cruise-mixture": "1.06",
            "full-load-mixture": "0.88",
            "level-at-idle": "15.2 mm",
        },
        seen={"covered-horn": "yes", "shaft-wiggle": "no", "clamped-hose": "no"},
    ),
    Round(
        "2026-04-25",
        altitude=300,
        temperature=15,
        ethanol=0.05,
        readings={
            "idle-vacuum": "18.4 inHg",
            "idle-mixture": "0.98",
            "off-idle-mixture": "1.03",
            "cruise-mixture": "1.03",
            "full-load-mixture": "0.88",
        },
        seen={"covered-horn": "no"},
        work="Idle jets taken out; one was half shut with varnish. Cleaned, blown through.",
    ),
)


def example_car(folder: Path | None = None) -> OwnCar:
    """Lay the invented car's two files down in `folder` (here), and return the car.

    Whatever somebody has changed in them is written over.
    """
    car = OwnCar(str((folder or Path()) / NAME), owns=["torch", "screwdriver", "vacuum gauge"])
    OwnCard(name=NAME, entries=ENTRIES).write(car.card_path)
    rounds = car.rounds
    for day in DAYS:
        rounds = rounds.with_round(day)
    rounds.write()
    return car
