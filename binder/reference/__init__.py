"""Facts from publications, each with its source."""
