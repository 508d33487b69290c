"""Questions and answers without a screen: a student's own numbers, reading what was typed, judging it, saving it.

No widget is made here, and no lesson is known by name.
"""
