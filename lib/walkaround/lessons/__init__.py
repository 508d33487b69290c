"""The lessons of the workbook: their table, and one folder a lesson."""
