"""How the wood of a material moves and bends: as the file states it, else by the tables."""

from __future__ import annotations

from docgen.piece.model import Material
from docgen.trade.movement import Movement, species
from docgen.trade.names import UnknownName

STATED = "as the file states it"


def movement(material: Material) -> Movement | None:
    """Return how solid wood moves across its grain; None for sheet goods, and where neither file nor tables know it.

    A stated movement without its radial figure moves as much in both directions: the safe side.
    """
    if not material.solid_wood:
        return None
    if material.movement is not None:
        radial, tangential = material.movement
        return Movement(material.species, tangential if radial is None else radial, tangential, 0.0, 0.0, 0.0, STATED)
    try:
        return species(material.species)
    except UnknownName:
        return None
