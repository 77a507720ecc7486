"""Under which addresses others in a network find this computer."""

import contextlib
import ipaddress
import socket

OUTSIDE = {socket.AF_INET: "192.0.2.1", socket.AF_INET6: "2001:db8::1"}  # addresses kept for examples
LONE = "This computer is in no network. Join the workshop's Wi-Fi or open a hotspot; --address names one by hand."


def own_addresses():
    """The addresses of this computer in its networks and their cards' names; what most of its traffic takes is first.

    Raises OSError where it is in no network.
    """
    found = [
        (each.address, card) for card, given in _cards().items() for each in given
        if each.family in OUTSIDE and not ipaddress.ip_address(each.address.partition("%")[0]).is_loopback
    ]  # fmt: skip
    usual = [_usual(kind) for kind in OUTSIDE]
    found = sorted((each for each in found if "%" not in each[0]), key=lambda each: _rank(each[0], usual))
    if not found:
        raise OSError(LONE)
    return found


def _cards():
    """What addresses each card has that is switched on."""
    import psutil

    switched = psutil.net_if_stats()
    return {card: given for card, given in psutil.net_if_addrs().items() if card in switched and switched[card].isup}


def _rank(address, usual):
    """Shorter addresses before longer ones, and what a card gave itself for want of a network last."""
    read = ipaddress.ip_address(address)
    return read.is_link_local, read.version, address not in usual


def _usual(kind):
    """The address that leads out. Nothing is sent: a socket is only told where it would send."""
    with contextlib.suppress(OSError), socket.socket(kind, socket.SOCK_DGRAM) as door:
        door.connect((OUTSIDE[kind], 9))
        return door.getsockname()[0]


def home(address, port):
    """What is typed into a browser.

    >>> home("192.0.2.7", 8765), home("fd00::2", 8765)
    ('http://192.0.2.7:8765/', 'http://[fd00::2]:8765/')
    """
    return f"http://[{address}]:{port}/" if ":" in address else f"http://{address}:{port}/"


def alone(address):
    """Whether nobody but this computer comes in there.

    >>> alone("127.0.0.1"), alone("::1"), alone("localhost"), alone("192.0.2.7"), alone("0.0.0.0")
    (True, True, True, False, False)
    """
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return address == "localhost"


def everywhere(address):
    """Whether that stands for all addresses of this computer."""
    return address in ("", "::", "0.0.0.0")
