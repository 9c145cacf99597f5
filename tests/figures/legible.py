"""How large text is on a phone, how wide in a wide font, and how far colours are apart."""

from functools import cache

from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextToPath

# A phone 390 px wide leaves a figure at least this width beside the margins of the page.
ON_A_PHONE = 358.0


@cache
def ems(text: str, bold: bool) -> float:
    """How wide text is in DejaVu Sans, whose file matplotlib brings, as a part of its size. No common font is wider."""
    font = FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal", size=100)
    width, _, _ = TextToPath().get_text_width_height_descent(text, font, ismath=False)
    return float(width) / 100


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
