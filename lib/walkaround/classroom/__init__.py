"""What the instructor does: a course and its roster, handing out, collecting, marking, what the class got wrong."""
