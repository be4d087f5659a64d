"""The atlas of a rig: drawn apart and cut open, and every part with what one needs to know.

Jobs, wear, cleaning and gauging are common practice, without a source; sizes are the card's.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from html import escape

from fuelcircuits.drawings.card_entry import entry_text
from fuelcircuits.drawings.parts import Part, parts
from fuelcircuits.drawings.section.exploded import exploded
from fuelcircuits.drawings.sections import SECTIONS, section
from fuelcircuits.physics.network.rig import Rig

__all__ = ["LINK", "Atlas"]

LINK = "#part-{}"
"""Where a number in the drawings leads to, on the same page."""
LINKED = re.compile(r'href="#part-([a-z-]+)"')
CUT = ("diagnosis", "float-bowl", "bowl-vents", "choke", "setting-up")
"""The sections shown beside the whole one."""
ROWS = (("wears", "wear"), ("cleaned", "clean"), ("gauged", "gauge"))
ANCHOR = re.compile(r"<(/?)a\b[^>]*>")
CAUTION = (
    "Goggles and gloves for cleaner and for air. Air at low pressure, away from skin, fuel and "
    "flame. No wire and no drill in any hole. The maker's own data come before ours."
)


@dataclass(frozen=True)
class Atlas:
    """The atlas of one rig; a notebook shows it, `html` puts it into a page."""

    rig: Rig

    def html(self, beside: Mapping[str, str] | None = None) -> str:
        """Return drawings and parts; every number is a link to its part on the same page.

        `beside` is HTML by a part's id, and says at which benches the part is met.
        """
        figures = [exploded(self.rig, LINK).svg]
        figures += [section(name, self.rig, LINK, of_atlas=True).svg for name in CUT]
        drawn = "".join(f"<figure>{svg}</figure>" for svg in figures)
        listed = "".join(
            self._part(one, (beside or {}).get(one.id, "")) for one in self.parts(drawn)
        )
        return f'<div class="fd-atlas">{drawn}<p><strong>Care.</strong> {CAUTION}</p>{listed}</div>'

    def parts(self, drawn: str) -> Iterator[Part]:
        """Yield every part that is a link in what is `drawn`, or in a section of a unit."""
        shown = {one.part for _, scene in SECTIONS.values() for one in scene(self.rig).named}
        shown |= set(LINKED.findall(drawn))
        return (one for one in parts().values() if one.shown and one.id in shown)

    def _part(self, one: Part, benches: str) -> str:
        """Return what there is to say of a part, and at which `benches` it is met."""
        rows = [("job", one.job), *((words, getattr(one, name)) for words, name in ROWS)]
        said = [escape(text) for path in one.card if (text := entry_text(self.rig, path))]
        rows_html = "".join(
            f"<dt>{words}</dt><dd>{escape(text)}</dd>" for words, text in rows if text
        )
        card = f"<dt>on the card</dt><dd>{'<br>'.join(said)}</dd>" if said else ""
        met = f"<dt>bench</dt><dd>{benches}</dd>" if benches else ""
        words = f"<h2>{one.number} {escape(one.name)}</h2><dl>{rows_html}{card}{met}</dl>"
        return f'<section id="part-{one.id}">{words}</section>'

    def _repr_html_(self) -> str:
        """Show the atlas in a notebook, without links: JupyterLab breaks off at one in an SVG."""
        return ANCHOR.sub(r"<\1g>", self.html())
