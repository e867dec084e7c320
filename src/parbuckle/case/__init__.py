"""The files a supervisor writes, case and kit: their models and how they are read."""
