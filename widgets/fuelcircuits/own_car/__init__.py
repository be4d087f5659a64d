"""An owner's car: fit the card to its readings, rank suspects, look ahead."""
