"""The example of a shared machine: started here, with two users who each see their own sheets and nobody else's."""

import contextlib
import importlib.util
import logging
import os
import shutil
import socket
import subprocess
import sys
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from types import SimpleNamespace

import pytest
import requests
import walkaround.classroom
from walkaround.classroom import hub

CONFIG = Path(walkaround.classroom.__file__).parent / "jupyterhub_config.py"
PASSWORD = "quillmoor"


def free_ports(count):
    with contextlib.ExitStack() as stack:
        sockets = [stack.enter_context(socket.socket()) for _ in range(count)]
        for s in sockets:
            s.bind(("127.0.0.1", 0))
        return [s.getsockname()[1] for s in sockets]


def hand_out(folder, name):
    folder.mkdir(exist_ok=True)
    with zipfile.ZipFile(folder / f"{name}.zip", "w") as z:
        z.writestr(f"course/of-{name}.txt", f"for {name}")


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    if importlib.util.find_spec("jupyterhub") is None:
        pytest.skip("jupyterhub is not installed (pip install walkaround[hub])")
    proxy = os.environ.get("WALKAROUND_HUB_PROXY") or shutil.which("configurable-http-proxy")
    if not proxy:
        pytest.skip("configurable-http-proxy is not installed (npm install -g configurable-http-proxy)")
    tmp_path = tmp_path_factory.mktemp("hub")
    trial, handed_out = tmp_path / "trial", tmp_path / "handed-out"
    trial.mkdir()
    for name in ("ines", "tomas"):
        hand_out(handed_out, name)
    port, hub_port, api = free_ports(3)
    url = f"http://127.0.0.1:{port}"
    environment = os.environ | {
        "WALKAROUND_HUB_TRIAL": str(trial),
        "WALKAROUND_HANDED_OUT": str(handed_out),
        "WALKAROUND_HUB_URL": url,
        "WALKAROUND_HUB_PORT": str(hub_port),
        "WALKAROUND_HUB_PROXY": proxy,
        "WALKAROUND_HUB_PROXY_API": f"http://127.0.0.1:{api}",
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
    }
    with open(tmp_path / "log", "wb") as log:
        command = [sys.executable, "-m", "jupyterhub", "-f", str(CONFIG)]
        process = subprocess.Popen(command, cwd=trial, env=environment, stdout=log, stderr=log)
        try:
            until(lambda: requests.get(f"{url}/hub/health", timeout=5).ok, process, tmp_path / "log")
            yield url, trial
        finally:
            process.terminate()
            try:
                process.wait(30)
            except subprocess.TimeoutExpired:
                process.kill()


def until(what, process=None, log=None, seconds=60):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if process is not None and process.poll() is not None:
            break
        with contextlib.suppress(requests.RequestException):
            if what():
                return
        time.sleep(0.3)
    pytest.fail("the hub did not come up:\n" + (log.read_text(errors="replace")[-3000:] if log else ""))


def logged_in(url, name):
    session = requests.Session()
    session.get(f"{url}/hub/login", timeout=20)
    form = {"username": name, "password": PASSWORD, "_xsrf": session.cookies.get("_xsrf", path="/hub/")}
    answer = session.post(f"{url}/hub/login?next=%2Fhub%2Fspawn", data=form, timeout=60)
    assert answer.ok, answer.text[:500]
    # The page logs the browser in to the student's own server; what the page then asks for carries its token.
    until(lambda: "/lab" in session.get(f"{url}/user/{name}/lab", timeout=20).url and token(session, name))
    until(lambda: names_in(session, url, name)[0] == 200)
    return session


def token(session, user):
    return next((c.value for c in session.cookies if c.name == "_xsrf" and c.path == f"/user/{user}/"), None)


def names_in(session, url, user, folder=""):
    headers = {"X-XSRFToken": token(session, user) or ""}
    answer = session.get(f"{url}/user/{user}/api/contents/{folder}", headers=headers, timeout=20)
    return answer.status_code, [e["name"] for e in answer.json()["content"]] if answer.ok else []


def test_two_users_each_see_their_own_sheets_only(running):
    url, trial = running
    with ThreadPoolExecutor(2) as both:
        ines, tomas = both.map(lambda name: logged_in(url, name), ("ines", "tomas"))
    for name in ("ines", "tomas"):
        (trial / "home" / name / "walkaround" / f"loading-{name}.answers.json").write_text("{}")
    for session, own, other in ((ines, "ines", "tomas"), (tomas, "tomas", "ines")):
        status, names = names_in(session, url, own, "walkaround")
        assert status == 200
        assert sorted(names) == [f"loading-{own}.answers.json", f"of-{own}.txt"]
        # The hub asks who it is, and does not let the one on to the other's server.
        assert session.get(f"{url}/user/{other}/lab", timeout=20).status_code == 403
        assert names_in(session, url, other, "walkaround")[0] in (403, 404)
        assert names_in(session, url, own, f"../{other}/walkaround")[0] in (400, 403, 404)
    stranger = requests.get(f"{url}/user/ines/api/contents", timeout=20, allow_redirects=False)
    assert stranger.status_code in (302, 403)


def test_a_wrong_password_is_not_let_in(running):
    url, _ = running
    session = requests.Session()
    session.get(f"{url}/hub/login", timeout=20)
    form = {"username": "ines", "password": "guess", "_xsrf": session.cookies.get("_xsrf", path="/hub/")}
    assert session.post(f"{url}/hub/login", data=form, timeout=60).status_code == 403


def test_unpacking_keeps_answers_and_notebooks_and_ignores_folders_in_names(tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    (home / "exercise-loading.ipynb").write_text("with answers")
    (home / "loading-s1.answers.json").write_text("mine")
    with zipfile.ZipFile(tmp_path / "z.zip", "w") as z:
        for name in (
            "c/exercise-loading.ipynb",
            "c/loading-s1.answers.json",
            "../../enrolment.json",
            "c/exercise-bags.ipynb",
        ):
            z.writestr(name, "new")
    written = hub.unpack((tmp_path / "z.zip").read_bytes(), home)
    assert sorted(written) == ["enrolment.json", "exercise-bags.ipynb"]
    assert (home / "exercise-loading.ipynb").read_text() == "with answers"
    assert (home / "loading-s1.answers.json").read_text() == "mine"
    assert not (tmp_path / "enrolment.json").exists()
    assert hub.unpack((tmp_path / "z.zip").read_bytes(), home) == []


def test_what_the_hub_starts_gets_none_of_its_tokens_and_runs_nothing_of_the_students(tmp_path, monkeypatch):
    home, started, run = tmp_path / "home", [], subprocess.run
    home.mkdir()
    hand_out(tmp_path / "out", "ines")
    for name in ("CONFIGPROXY_AUTH_TOKEN", "JUPYTERHUB_API_TOKEN", "JUPYTERHUB_CRYPT_KEY", "ANY_OTHER_SECRET"):
        monkeypatch.setenv(name, "a secret token")
    monkeypatch.setenv("PYTHONPATH", str(home))
    (home / "zipfile.py").write_text("raise SystemExit('a file of the student ran')")
    monkeypatch.setattr(subprocess, "run", lambda *a, **more: started.append(more) or run(*a, **more))
    spawner = SimpleNamespace(user=SimpleNamespace(name="ines"), home_dir=str(home), log=logging.getLogger("hub"))
    hub.hand_out_at_login(tmp_path / "out", "walkaround", as_user=False)(spawner)
    assert (home / "walkaround" / "of-ines.txt").read_text() == "for ines"
    assert started[0]["env"].keys() == {"PATH", "HOME", "LANG"}
