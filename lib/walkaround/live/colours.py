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
