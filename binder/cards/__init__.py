"""View models: every decision and every printed string."""
