"""The log, assessed: what tires lose, what was read last, and what is broken."""

from binder.assessment.ledger import Ledger
from binder.assessment.log.faults import assess_faults
from binder.assessment.log.losses import assess_losses
from binder.assessment.log.newest import assess_newest
from binder.models.load import Profile


def assess_log(profile: Profile, ledger: Ledger) -> None:
    """Enter the figures and findings that the log alone makes."""
    assess_newest(profile, ledger)
    assess_losses(profile, ledger)
    assess_faults(profile, ledger)
