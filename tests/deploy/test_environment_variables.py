"""Which of the shell's variables reach the installer, and which reach Yardbell."""

from deploy.environment import clean, installer_environment

SHELL = {
    "HOME": "/home/sam",
    "PIP_CERT": "/etc/certificates.pem",
    "PIP_INDEX_URL": "the club's own",
    "PIP_REQUIRE_VIRTUALENV": "1",
    "PIP_TARGET": "/elsewhere",
    "PYTHONHOME": "/elsewhere",
    "PYTHONPATH": "/elsewhere",
    "VIRTUAL_ENV": "/elsewhere",
    "YARDBELL_DATABASE": "sqlite:///yards.sqlite",
}


def test_yardbell_gets_all_but_what_points_python_elsewhere() -> None:
    given = clean(SHELL)
    assert SHELL.keys() - given.keys() == {"PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV"}


def test_the_machine_s_way_to_packages_is_kept() -> None:
    given = installer_environment(SHELL)
    assert given["PIP_INDEX_URL"] == "the club's own"
    assert given["PIP_CERT"] == "/etc/certificates.pem"


def test_nothing_of_the_shell_decides_where_packages_go() -> None:
    given = installer_environment(SHELL)
    assert "PIP_TARGET" not in given
    assert given["PIP_REQUIRE_VIRTUALENV"] == "0"
    assert given["PIP_USER"] == "0"
