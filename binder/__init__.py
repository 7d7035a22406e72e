"""The rig on paper: a glovebox binder and field cards from one description of the rig and one of the trip."""
