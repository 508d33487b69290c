"""The workbook's colours: they stay apart for colour-blind readers and in grey.

They are Okabe and Ito's set for colour-blind readers (M. Okabe, K. Ito, "Color Universal Design", 2008); beside each
goes a line style or a marker, never the colour alone.
"""

INK = "#1a1a1a"
FAINT = "#8a8a8a"
PALE = "#e9edf0"
BLUE = "#0072b2"
ORANGE = "#e69f00"
VERMILION = "#d55e00"
GREEN = "#009e73"
SKY = "#56b4e9"
PURPLE = "#cc79a7"

# The same hues, dark enough for letters: 4.5 to 1 on white and on the pale grounds (WCAG 2.2, success criterion 1.4.3).
LETTERS = {
    FAINT: "#636363",
    ORANGE: "#855c00",
    VERMILION: "#a84300",
    GREEN: "#006e4d",
    SKY: "#1c6a98",
    PURPLE: "#96457a",
}


def for_letters(colour):
    """Return the colour in which letters of a colour are drawn.

    >>> for_letters(GREEN), for_letters(INK)
    ('#006e4d', '#1a1a1a')
    """
    return LETTERS.get(colour, colour)
