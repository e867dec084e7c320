"""The app's server: typed answers over HTTP, thin over the desk; it computes nothing itself."""
