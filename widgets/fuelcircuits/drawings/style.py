"""The one look of every drawing: its colours in light, dark and on paper, its lines and hatches.

Colours never speak alone: petrol has waves in it, water has dashes, froth has bubbles, and the
ways of air and fuel differ by their dashes.
"""

import re
from collections.abc import Mapping

__all__ = ["DEFINITIONS", "style"]

CLASS = re.compile(r'(?<=["\s])([a-z][a-z-]*)(?=["\s])')
RULE, NAMED = re.compile(r"\.fd[^{]*\{[^}]*\}\n"), re.compile(r"\.([a-z][a-z-]*)")

LIGHT: Mapping[str, str] = {
    "ink": "#1f2a33",
    "faint": "#5b6770",
    "sheet": "#ffffff",
    "petrol": "#f7dca4",
    "grain": "#8a6420",
    "water": "#cfe6f7",
    "ripple": "#0b5cad",
    "air": "#0b5cad",
    "fuel": "#7a3e00",
    "chosen": "#ffe08a",
    "metal": "#dfe4e8",
}
DARK: Mapping[str, str] = {
    "ink": "#e4e9ed",
    "faint": "#a7b2bb",
    "sheet": "#14191d",
    "petrol": "#6a4d1f",
    "grain": "#f0cf8f",
    "water": "#1d4a6e",
    "ripple": "#a9d5ff",
    "air": "#7cc0ff",
    "fuel": "#ffb86b",
    "chosen": "#7a5c00",
    "metal": "#3a454e",
}
RULES = """
.fd { background: SHEET; color: INK; font-family: system-ui, "DejaVu Sans", sans-serif; }
.fd text { fill: INK; font-size: 12.5px; }
.fd text.small { font-size: 11px; }
.fd text.given { font-weight: 700; fill: AIR; }
.fd text.number { font-size: 11.5px; font-weight: 700; text-anchor: middle; }
.fd .halo { paint-order: stroke; stroke: SHEET; stroke-width: 3.5px; stroke-linejoin: round; }
.fd .paper { fill: SHEET; stroke: none; }
.fd .rim { fill: none; stroke: INK; stroke-width: 2.8; stroke-linejoin: round; }
.fd .body { fill: url(#fd-body); }
.fd .cover { fill: url(#fd-cover); }
.fd .brass { fill: url(#fd-brass); }
.fd .petrol { fill: PETROL; stroke: none; }
.fd .petrol-in { stroke: PETROL; }
.fd .grain { fill: url(#fd-petrol); stroke: none; }
.fd .grain-in { stroke: url(#fd-petrol); }
.fd .froth { fill: url(#fd-froth); stroke: none; }
.fd .froth-in { stroke: url(#fd-froth); }
.fd .water { fill: WATER; stroke: none; }
.fd .ripple { fill: url(#fd-water); stroke: none; }
.fd .water-in { stroke: WATER; }
.fd .ripple-in { stroke: url(#fd-water); }
.fd .vapour-in { stroke: url(#fd-vapour); }
.fd .vapour { fill: url(#fd-vapour); stroke: none; }
.fd .way { fill: none; stroke-linejoin: miter; }
.fd .sheet-in { stroke: SHEET; }
.fd .ink-in { stroke: INK; }
.fd .part { fill: SHEET; stroke: INK; stroke-width: 1.4; stroke-linejoin: round; }
.fd .metal { fill: METAL; stroke: INK; stroke-width: 1.4; stroke-linejoin: round; }
.fd .jet { fill: url(#fd-brass); stroke: INK; stroke-width: 1.2; }
.fd .solid { fill: INK; stroke: none; }
.fd .line { fill: none; stroke: INK; stroke-width: 1.4; stroke-linecap: round;
  stroke-linejoin: round; }
.fd .thin { fill: none; stroke: INK; stroke-width: 0.8; }
.fd .axis { fill: none; stroke: INK; stroke-width: 0.8; stroke-dasharray: 10 3 2 3; }
.fd .hidden { fill: none; stroke: INK; stroke-width: 1; stroke-dasharray: 4 3; }
.fd .lead { fill: none; stroke: INK; stroke-width: 0.9; }
.fd .under { fill: none; stroke: SHEET; stroke-width: 3.2; }
.fd .surface { fill: none; stroke: FUEL; stroke-width: 1.6; }
.fd .level { fill: none; stroke: AIR; stroke-width: 1.1; stroke-dasharray: 7 3; }
.fd .air { fill: none; stroke: AIR; stroke-width: 1.9; stroke-dasharray: 3 5;
  stroke-linecap: round; }
.fd .fuel { fill: none; stroke: FUEL; stroke-width: 2.2; stroke-dasharray: 8 4; }
.fd .gas { fill: none; stroke: FAINT; stroke-width: 2.2; stroke-dasharray: 1 4;
  stroke-linecap: round; }
.fd .tip-air { fill: AIR; stroke: none; }
.fd .tip-fuel { fill: FUEL; stroke: none; }
.fd .tip-gas { fill: FAINT; stroke: none; }
.fd .tip { fill: INK; stroke: none; }
.fd .balloon { fill: SHEET; stroke: INK; stroke-width: 1.2; }
.fd a { cursor: pointer; text-decoration: none; }
.fd a:is(:hover, :focus-visible) .balloon { fill: CHOSEN; }
.fd a:is(:hover, :focus-visible) text { text-decoration: underline; }
"""
DEFINITIONS = (
    "<defs>"
    '<pattern id="fd-body" width="6" height="6" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><path d="M0 0V6" stroke="currentColor" stroke-width="0.8"/>'
    "</pattern>"
    '<pattern id="fd-cover" width="6" height="6" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(-45)"><path d="M0 0V6" stroke="currentColor" stroke-width="0.8"/>'
    "</pattern>"
    '<pattern id="fd-brass" width="3.2" height="3.2" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(-45)"><path d="M0 0V3.2" stroke="currentColor" '
    'stroke-width="0.8"/></pattern>'
    '<pattern id="fd-petrol" width="22" height="11" patternUnits="userSpaceOnUse">'
    '<path class="wave" d="M3 4q2 -2 4 0t4 0M14 9.5q2 -2 4 0t3 0"/></pattern>'
    '<pattern id="fd-water" width="16" height="7" patternUnits="userSpaceOnUse">'
    '<path class="dash" d="M1 2H8M9 5.5H15"/></pattern>'
    '<pattern id="fd-froth" width="7" height="7" patternUnits="userSpaceOnUse">'
    '<rect class="petrol" width="7" height="7"/><circle class="bubble" cx="2" cy="2" r="1.3"/>'
    '<circle class="bubble" cx="5.5" cy="5.2" r="1.1"/></pattern>'
    '<pattern id="fd-vapour" width="9" height="9" patternUnits="userSpaceOnUse">'
    '<circle class="mote" cx="2.5" cy="2.5" r="0.9"/><circle class="mote" cx="7" cy="6.8" '
    'r="0.9"/></pattern>'
    "</defs>"
)
PATTERNS = """
.fd .wave { fill: none; stroke: GRAIN; stroke-width: 0.8; opacity: 0.75; }
.fd .dash { fill: none; stroke: RIPPLE; stroke-width: 1; }
.fd .bubble { fill: SHEET; stroke: GRAIN; stroke-width: 0.5; }
.fd .mote { fill: FUEL; }
"""


def style(shapes: str) -> str:
    """Return the style sheet that `shapes` need.

    It is light, dark where the page or its system asks for it, and light again on paper.
    """
    used = {"paper", *CLASS.findall(shapes + DEFINITIONS)}
    rules = "".join(
        rule for rule in RULE.findall(RULES + PATTERNS) if _needed(rule.partition("{")[0], used)
    )
    for name, colour in LIGHT.items():
        rules = rules.replace(name.upper() + ";", f"var(--fd-{name}, {colour});")
    dark, light = (_colours(each) for each in (DARK, LIGHT))
    return (
        f"{rules.strip()}\n"
        f"@media (prefers-color-scheme: dark) {{ .fd {{ {dark}color-scheme:dark; }} }}\n"
        f'[data-theme="dark"] .fd {{ {dark}color-scheme:dark; }}\n'
        f'[data-theme="light"] .fd {{ {light}color-scheme:light; }}\n'
        f"@media print {{ .fd, [data-theme] .fd {{ {light}color-scheme:light; }} }}"
    )


def _needed(selector: str, used: set[str]) -> bool:
    """Say whether every class that a selector names, but the drawing's own, is used."""
    return all(name in used for name in NAMED.findall(selector) if name != "fd")


def _colours(colours: Mapping[str, str]) -> str:
    return "".join(f"--fd-{name}:{colour};" for name, colour in colours.items())
