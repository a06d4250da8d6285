"""Numbers with their unit, as a keeper writes them."""


def number(amount: float) -> str:
    """Write at most two decimals and no empty ones: ``0.95``, ``2``."""
    return f"{amount:.2f}".rstrip("0").rstrip(".")


def counted(amount: float, one: str, many: str) -> str:
    """Write ``1 frame``, ``0.5 frame``, ``2 frames``, ``0 frames``."""
    return f"{number(amount)} {one if 0 < amount <= 1 else many}"


def percent(share: float) -> str:
    """Write a share of 0 to 1 as ``60%``."""
    return f"{share * 100:.0f}%"
