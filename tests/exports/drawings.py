"""Drawings to draw in tests: one as a kitchen would want it, and odd ones."""

from math import exp, inf, nan

from service.calculations.declaration import Band, Drawing, Mark, Panel, Series

DAYS = tuple(quarter / 4 for quarter in range(49))

HAUNCH = Drawing(
    title="Venison haunch on its way to an even cure",
    panels=(
        Panel(
            title="Nitrite",
            x_label="Days in the cure",
            y_label="Nitrite (ppm)",
            series=(
                Series("Centre, expected", tuple((day, 150 * (1 - exp(-day / 4))) for day in DAYS)),
                Series("Surface", tuple((day, 150.0) for day in DAYS)),
            ),
            bands=(
                Band(
                    "Centre, slow to fast",
                    tuple((day, 150 * (1 - exp(-day / 5)), 150 * (1 - exp(-day / 3))) for day in DAYS),
                ),
            ),
            marks=(
                Mark("Turn", (3.0, 79.1)),
                Mark("Take it out and let it lie in the cold for two days", (8.0, 129.7)),
            ),
        ),
        Panel("Salt", "Days in the cure", "Salt (%)", (Series("Centre", tuple((day, day / 5) for day in DAYS)),)),
    ),
    note="The band runs from a slow to a fast piece. It is a forecast: follow your local code.",
)
NAMES = (
    "Venison haunch on its way to an even cure", "Nitrite", "Days in the cure", "Nitrite (ppm)", "Centre, expected",
    "Surface", "Centre, slow to fast", "Turn", "Take it out and let it lie in the cold for two days", "Salt",
    "Salt (%)", "Centre", "The band runs from a slow to a fast piece. It is a forecast: follow your local code.",
)  # fmt: skip
"""Every text on it."""


def one_panel(
    *series: Series, title: str = "Brine", bands: tuple[Band, ...] = (), marks: tuple[Mark, ...] = ()
) -> Drawing:
    """A drawing of one panel."""
    return Drawing(title, (Panel("Salt", "Hours", "Salt (%)", series, bands, marks),))


ODD = {
    "no panel": Drawing("Nothing yet", ()),
    "empty panel": one_panel(),
    "empty series": one_panel(Series("Shank", ())),
    "empty band": one_panel(bands=(Band("Between", ()),)),
    "one point": one_panel(Series("Shank", ((2.0, 3.0),))),
    "one zero": one_panel(Series("Shank", ((0.0, 0.0),))),
    "level": one_panel(Series("Shank", ((0.0, 3.0), (9.0, 3.0)))),
    "a gap": one_panel(Series("Shank", ((0.0, 1.0), (1.0, nan), (2.0, inf), (3.0, 2.0)))),
    "no number": one_panel(Series("Shank", ((nan, nan),)), marks=(Mark("Nowhere", (nan, 1.0)),)),
    "beyond numbers": one_panel(Series("Shank", ((0.0, -1.7e308), (1.0, 1.7e308), (2.0, 1.0)))),
    "far away": one_panel(Series("Shank", ((0.0, -4e6), (1e7, 9e6)))),
    "close by": one_panel(Series("Shank", ((1.0, 1.0), (1.0 + 1e-9, 1.0 + 1e-9)))),
    "many": one_panel(
        *(Series(f"Piece {piece}", ((0.0, 0.0), (9.0, float(piece)))) for piece in range(15)),
        bands=tuple(Band(f"Room {room}", ((0.0, 0.0, 1.0), (9.0, room, room + 1.0))) for room in range(6)),
        marks=tuple(Mark(f"Turn {turn}", (4.0 + turn / 100, 4.0)) for turn in range(12)),
    ),
    "control": one_panel(
        Series("bell\x07 null\x00 half\ud800 turn\u202e", ((0.0, 0.0), (1.0, 1.0))), title="\ufffe\n\t"
    ),
    "other letters": one_panel(Series("\u5869\u6f2c\u3051", ((0.0, 0.0), (1.0, 1.0)))),
    "one long word": one_panel(title="salt" * 1000),
    "long": Drawing("Brine " * 500, (Panel("Salt " * 99, "Hours " * 99, "Percent " * 99),), note="Weigh it. " * 900),
}
