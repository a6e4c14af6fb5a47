"""Still pictures of charts, made once and kept under the hash of what they show.

The converter takes some 288 MB and keeps it, so it runs in a process of its own
that ends with the picture. It fetches nothing: what a chart shows stands in its
specification.
"""

import hashlib
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from .theme import Spec

SECONDS = 60.0
MADE_AS = "1"
SCHEMA = re.compile(r"/vega-lite/v(\d+)(?:\.(\d+))?")


class StillError(RuntimeError):
    """A still picture could not be made."""


def still_name(spec: Spec) -> str:
    """Give the file name of a specification's still.

    Parameters
    ----------
    spec : dict
        A Vega-Lite specification.

    Returns
    -------
    str
        The same for the same picture, different for any other.
    """
    written = json.dumps(spec, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(f"{MADE_AS}\n{written}".encode()).hexdigest() + ".svg"


def kept_still(spec: Spec, folder: Path) -> Path | None:
    """Give the still that was made before, or None.

    Parameters
    ----------
    spec : dict
        A Vega-Lite specification.
    folder : Path
        Where stills are kept.

    Returns
    -------
    Path or None
        The SVG file.
    """
    path = folder / still_name(spec)
    return path if path.is_file() else None


def make_still(spec: Spec, folder: Path) -> Path:
    """Give the still of a specification, made now if it was not made before.

    Parameters
    ----------
    spec : dict
        A Vega-Lite specification with its data inside.
    folder : Path
        Where stills are kept; made if it is missing.

    Returns
    -------
    Path
        The SVG file, whole: it appears under its name only when it is finished.

    Raises
    ------
    StillError
        If the converter fails or takes more than a minute.
    """
    kept = kept_still(spec, folder)
    if kept is not None:
        return kept
    folder.mkdir(parents=True, exist_ok=True)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "wareboard.charts.stills"],
            input=json.dumps(spec).encode(),
            capture_output=True,
            timeout=SECONDS,
            check=False,
        )
    except subprocess.TimeoutExpired as error:
        raise StillError("The still picture of a chart took more than a minute.") from error
    if done.returncode:
        last = done.stderr.decode(errors="replace").strip().rpartition("\n")[2]
        raise StillError(f"The still picture of a chart could not be made: {last}")
    path = folder / still_name(spec)
    with tempfile.NamedTemporaryFile(dir=folder, suffix=".part", delete=False) as part:
        part.write(done.stdout)
    return Path(part.name).replace(path)


def to_svg(spec: Spec) -> str:
    """Draw a specification as SVG, here and now.

    Parameters
    ----------
    spec : dict
        A Vega-Lite specification with its data inside.

    Returns
    -------
    str
        SVG without a style attribute.
    """
    import vl_convert  # noqa: PLC0415 -- loads a browser engine

    svg: str = vl_convert.vegalite_to_svg(
        spec, vl_version=_version(spec, vl_convert.get_vegalite_versions()), allowed_base_urls=[]
    )
    return svg


def _version(spec: Spec, known: list[str]) -> str:
    """Give the converter's grammar that fits a specification: its own, or the next newer."""
    found = SCHEMA.search(str(spec.get("$schema", "")))
    if found is None:
        return known[-1]
    wanted = (int(found[1]), int(found[2] or 0))
    versions = {tuple(int(part) for part in v.split(".")): v for v in known}
    same = sorted(v for v in versions if v[0] == wanted[0])
    if not same:
        raise StillError(f"The converter does not know Vega-Lite {wanted[0]}.")
    return versions[next((v for v in same if v >= wanted), same[-1])]


if __name__ == "__main__":
    sys.stdout.write(to_svg(json.loads(sys.stdin.read())))
