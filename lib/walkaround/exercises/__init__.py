"""Exercises: questions with each student's own numbers, marked as they are answered."""
