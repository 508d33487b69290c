"""What the instructor does: a course and its roster, handing out, collecting, marking in bulk, what the class got wrong."""
