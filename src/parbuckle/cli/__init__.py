"""The commands, thin over desk."""
