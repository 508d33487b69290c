"""Invented people who fly from the invented airfield."""

# Questions draw from them by place: a change here, in the order too, would change students' papers.
PILOTS = ("Ines Okafor", "Tomas Brandvold", "Priya Lindqvist", "Samuel Oyelaran", "Marta Kovalenko")
