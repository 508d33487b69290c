"""What the walkaround protects against, in numbers: one folder for each subject, flat functions that broadcast."""
