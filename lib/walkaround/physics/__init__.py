"""What the walkaround protects against, in numbers: one folder a subject, numpy alone, flat functions that broadcast."""
