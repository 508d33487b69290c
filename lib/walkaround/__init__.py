"""The walkaround workbook: what each step of a light aircraft's walkaround protects against, worked out.

A training aid. It never replaces the aircraft's own handbook, local rules or a licensed person.
"""

__version__ = "0.1.0"
