import pytest

from binder.cards.address import log_target


@pytest.mark.parametrize(
    ("address", "target"),
    [
        ("https://Example.com", "HTTPS://EXAMPLE.COM/#5.1.7f3ka"),
        ("https://Me@example.com:8080/A/b?c=D", "HTTPS://Me@EXAMPLE.COM:8080/A/b?c=D#5.1.7f3ka"),
        ("https://example.com?c=D", "HTTPS://EXAMPLE.COM/?c=D#5.1.7f3ka"),
        ("mailto:Log@example.com", "MAILTO:Log@example.com?subject=5.1.7f3ka"),
        ("mailto:a@b.example?cc=c@b.example", "MAILTO:a@b.example?cc=c@b.example&subject=5.1.7f3ka"),
        ("tel:+1-555-555-0100", "TEL:+1-555-555-0100"),
        ("geo:44.46,-110.83", "GEO:44.46,-110.83"),
    ],
)
def test_scheme_and_host_are_capitals_and_the_rest_is_kept(address: str, target: str) -> None:
    assert log_target(address, "5.1", "7f3ka") == target


@pytest.mark.parametrize(
    ("address", "mark"),
    [
        ("https://example.com/#top", "5.1"),
        ("https:///path", "5.1"),
        ("https:example.com", "5.1"),
        ("https://caf\u00e9.example", "5.1"),
        ("https://example.com/a b", "5.1"),
        ("mailto:a@b.example?subject=log", "5.1"),
        ("ftp://example.com", "5.1"),
        ("example.com", "5.1"),
        ("tel:", "5.1"),
        ("https://example.com", "5#1"),
    ],
)
def test_an_address_that_cannot_be_marked_is_refused(address: str, mark: str) -> None:
    with pytest.raises(ValueError, match=r"letters|start|own|host|no address|no mark"):
        log_target(address, mark, "7f3ka")
