"""What is installed is what is tested: the wheel carries the tables and runs on the demo day by itself."""

from __future__ import annotations

import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest
from make_day import build

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(out), str(ROOT)],
        check=True,
        capture_output=True,
    )
    (built,) = out.glob("*.whl")
    return built


def test_the_wheel_holds_the_package_the_tables_and_nothing_else(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {"checkface/py.typed", "checkface/data/authorities.toml", "checkface/data/demo/saturday.csv"} <= names
    assert {name.split("/")[0] for name in names if ".dist-info" not in name} == {"checkface"}


def test_the_installed_wheel_runs_the_demo_day(wheel: Path, tmp_path: Path) -> None:
    place = tmp_path / "installed"
    venv.create(place, with_pip=False, system_site_packages=False)
    site = next((place / "lib").glob("python3*")) / "site-packages"
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    # The packages it depends on come from this environment; checkface itself must come from the wheel,
    # whatever PYTHONPATH says: hence -I.
    here = next(path for path in sys.path if path.endswith("site-packages"))
    (site / "dependencies.pth").write_text(here + "\n", encoding="utf-8")
    python = place / "bin" / "python"
    code = (
        "import checkface, sys; from checkface.cli import main; print(checkface.__file__); sys.exit(main(sys.argv[1:]))"
    )
    done = subprocess.run(
        [python, "-I", "-c", code, "audit", str(site / "checkface" / "data" / "demo" / "saturday.csv")],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert str(site) in done.stdout.splitlines()[0]
    assert f"{len(build().rows)} tenders: " in done.stderr
