"""Telephones: a code for each, the bench page alone, nothing for strangers."""

from __future__ import annotations

import re
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from html import unescape
from pathlib import Path
from urllib.request import Request, urlopen

import pytest
from click.testing import CliRunner
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from ozonewright.cli.open import command
from ozonewright.errors import InputError, MissingValue, NotFound
from ozonewright.notebook import Notebook
from ozonewright.notebook.acts import new_id
from ozonewright.show.qr import for_one_phone, qr_svg
from ozonewright.web import phone as telephones
from ozonewright.web import server
from ozonewright.web.app import create_app
from ozonewright.web.phone import Phones, local_address
from web.in_process import ADDRESS, Pages, run_table

PHONE = "http://192.168.7.5:8766"
SECRET = "garden workshop"


class Bench:
    """One desk and as many telephones as come in."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / "bench.sqlite"
        with Notebook.create(self.file, f"{SECRET} (invented)") as notebook:
            notebook.add("run", run_table("C1", "240 s", "28.46 mL"))
        self.phones = Phones("192.168.7.5", 8766)
        self.app = create_app(self.file, folder, self.phones)
        self.desk = Pages(self.client(ADDRESS), self.file)

    def client(self, address: str) -> TestClient:
        return TestClient(
            self.app, base_url=address, raise_server_exceptions=False, follow_redirects=False
        )

    def phone(self) -> TestClient:
        """A telephone that was let in."""
        client, code = self.client(PHONE), self.phones.new_code()
        reply = client.post("/in", data={"token": code, "code": code})
        assert reply.headers["location"] == "/bench"
        return client


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(tmp_path)


def token_on(client: TestClient, path: str = "/bench?of=C9") -> str:
    found = re.search(r'name="token" value="([^"]+)"', client.get(path).text)
    assert found
    return unescape(found[1])


def press(client: TestClient, what: str, token: str) -> int:
    fields = {"what": what, "of": "C9", "id": new_id(), "token": token}
    return client.post(
        "/bench/press", data=fields, headers={"accept": "application/json"}
    ).status_code


def test_looking_uses_no_code_up_pressing_does(bench: Bench) -> None:
    code, client = bench.phones.new_code(), bench.client(PHONE)
    for _ in range(3):
        text = client.get(f"/in/{code}").text
        assert "Use this telephone" in text
        assert SECRET not in text
    first = client.post("/in", data={"token": code, "code": code})
    assert first.status_code == 303
    cookie = first.headers["set-cookie"].lower()
    for word in ("httponly", "samesite=strict", "path=/"):
        assert word in cookie
    for other in (bench.client(PHONE), bench.client(PHONE)):
        assert other.get(f"/in/{code}").status_code == 403
        assert other.post("/in", data={"token": code, "code": code}).status_code == 403


def test_a_telephone_sees_the_bench_page_and_nothing_else(bench: Bench) -> None:
    phone = bench.phone()
    assert phone.get("/").headers["location"] == "/bench"
    assert phone.get("/bench?of=C9").status_code == 200
    assert "Phone 1" in phone.get("/bench?of=C9").text
    assert phone.get("/bench/state?of=C9").status_code == 200
    for path in ("/runs", "/new", "/run/C1", "/export", "/backup", "/search?q=C", "/recipe",
                 "/phone", "/setting?name=x", "/nope"):  # fmt: skip
        reply = phone.get(path)
        assert reply.status_code == 404, path
        assert "28.46" not in reply.text
        assert not re.findall(r'href="/(?!bench|static/|"|#)[^"]*"', reply.text)
    for path in ("/undo", "/new", "/phone/code", "/phone/out", "/run/C1/withdraw"):
        assert phone.post(path, data={"token": token_on(phone)}).status_code == 404, path


@pytest.mark.parametrize(
    "path", ["/", "/bench", "/bench?of=C1", "/bench/state?of=C1", "/runs", "/run/C1", "/export",
             "/in", "/in/", "/in/nope", "/in/a/b", "/index", "/nope", "/phone", "/in/../runs"],
)  # fmt: skip
def test_a_stranger_in_the_network_sees_nothing(bench: Bench, path: str) -> None:
    reply = bench.client(PHONE).get(path)
    assert reply.status_code in (307, 403, 404, 405)
    for word in (SECRET, "28.46", "C1</", "bench.sqlite"):
        assert word not in reply.text
    assert "default-src 'none'" in reply.headers["content-security-policy"]


def test_a_stranger_writes_nothing_whatever_token_it_has(bench: Bench) -> None:
    stranger, phone = bench.client(PHONE), bench.phone()
    desk = bench.desk.token()
    for token in ("", "wrong", desk, token_on(phone), bench.phones.new_code()):
        assert press(stranger, "gas on", token) == 403
    stranger.cookies.set("bench", "wrong")
    assert press(stranger, "gas on", token_on(phone)) == 403
    with Notebook.open(bench.file) as notebook:
        assert notebook.entries(kind="entry") == []


@pytest.mark.parametrize(
    "cookie", ["bench=", "bench", "x=1; bench=\u00e9", "bench=[;]=", "\x7f=1", ";;"]
)
def test_a_cookie_that_is_none_is_a_stranger(bench: Bench, cookie: str) -> None:
    headers = {"cookie": cookie.encode("latin-1")}
    assert bench.client(PHONE).get("/bench", headers=headers).status_code == 403  # type: ignore[arg-type]


def test_no_socket_is_opened_to_a_stranger(bench: Bench) -> None:
    with (
        pytest.raises(WebSocketDisconnect),
        bench.client(PHONE).websocket_connect("/bench/state"),
    ):
        raise AssertionError


def test_the_token_of_the_desk_never_reaches_a_telephone(bench: Bench) -> None:
    phone, desk = bench.phone(), bench.desk.token()
    for path in ("/bench", "/bench?of=C9", "/bench?other=1", "/bench/state?of=C9", "/nope"):
        assert desk not in phone.get(path).text
    assert press(phone, "gas on", desk) == 403


def test_two_telephones_each_with_its_own_code_press_into_one_count(bench: Bench) -> None:
    one, other = bench.phone(), bench.phone()
    assert token_on(one) != token_on(other)
    assert press(one, "gas on", token_on(other)) == 403
    assert press(one, "gas on", token_on(one)) == 200
    assert press(other, "discharge on", token_on(other)) == 200
    for client in (one, other, bench.desk.client):
        found = client.get("/bench/state?of=C9").json()
        assert (found["gas"], found["discharge"], found["counting"]) == (True, True, True)
    with Notebook.open(bench.file) as notebook:
        assert [one.source for one in notebook.entries(kind="entry")] == ["phone 1", "phone 2"]


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1:8765", "192.168.7.5", "localhost:8766",
                                  "192.168.7.5:8765", ""])  # fmt: skip
def test_the_host_rule_holds_at_the_telephones_address(bench: Bench, host: str) -> None:
    phone = bench.phone()
    reply = phone.get("/bench", headers={"host": host})
    assert reply.status_code == 421
    assert SECRET not in reply.text


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", ADDRESS, "https://192.168.7.5:8766"]
)
def test_the_origin_rule_holds_at_the_telephones_address(bench: Bench, origin: str) -> None:
    phone = bench.phone()
    fields = {"what": "gas on", "of": "C9", "token": token_on(phone)}
    reply = phone.post("/bench/press", data=fields, headers={"origin": origin})
    assert reply.status_code == 403
    reply = phone.post("/bench/press", data=fields, headers={"sec-fetch-site": "cross-site"})
    assert reply.status_code == 403
    reply = phone.post("/bench/press", data=fields, headers={"origin": PHONE})
    assert reply.status_code == 303


def test_the_desk_is_not_to_be_had_under_the_telephones_name(bench: Bench) -> None:
    """A request at the loopback socket with the telephones' Host, and the other way round."""
    assert (
        bench.client(ADDRESS).get("/runs", headers={"host": "192.168.7.5:8766"}).status_code == 421
    )
    assert bench.client(PHONE).get("/runs", headers={"host": "127.0.0.1:8765"}).status_code == 421


def test_codes_grow_old_are_few_and_all_end_at_once(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = [0.0]
    monkeypatch.setattr(telephones.time, "monotonic", lambda: clock[0])
    old = bench.phones.new_code()
    clock[0] = telephones.CODE_LIFE + 1.0
    assert bench.client(PHONE).get(f"/in/{old}").status_code == 403
    first, *others = [bench.phones.new_code() for _ in range(telephones.MOST_CODES + 1)]
    assert not bench.phones.holds(first)
    assert all(map(bench.phones.holds, others))
    phone = bench.phone()
    bench.desk.send("/phone/out", {})
    assert phone.get("/bench").status_code == 403
    assert bench.phones.codes() == ()


def test_a_second_server_knows_no_telephone_of_the_first(bench: Bench, tmp_path: Path) -> None:
    phone = bench.phone()
    again = TestClient(
        create_app(bench.file, tmp_path, Phones("192.168.7.5", 8766)),
        base_url=PHONE,
        cookies=dict(phone.cookies),
        follow_redirects=False,
    )
    assert again.get("/bench/state?of=C9").status_code == 403


def test_the_desk_shows_a_code_and_who_is_in(bench: Bench) -> None:
    assert "No telephone is in." in bench.desk.get("/phone").text
    text = bench.desk.send("/phone/code", {}).text
    found = re.search(rf"{re.escape(PHONE)}/in/(\w+)", text)
    assert found
    assert "<svg" in text
    assert not re.search(r"<style|\sstyle=", text)
    client = bench.client(PHONE)
    assert client.post("/in", data={"token": found[1], "code": found[1]}).status_code == 303
    assert "In: phone 1." in bench.desk.get("/phone").text
    assert 'href="/phone"' in bench.desk.get("/bench?of=C9").text
    assert 'href="/phone"' not in client.get("/bench?of=C9").text


def test_without_phone_no_code_is_to_be_had(pages: Pages) -> None:
    assert pages.get("/phone").status_code == 404
    assert pages.send("/phone/code", {}).status_code == 404
    assert "open --notebook FILE --phone" in pages.get("/phone").text


def test_the_picture_holds_the_address() -> None:
    """The number of modules is that of a QR code for so long a text; ISO/IEC 18004."""
    address = "http://192.168.7.5:8766/in/abcdefghjkm0"
    text = for_one_phone(address)
    assert address in text
    # 39 bytes at level M need version 3 (42 bytes): 29 modules and a border of 2 at each side
    lines = [line for line in text.splitlines() if "\u2580" in line or "\u2588" in line]
    assert len(lines) == (29 + 4 + 1) // 2
    assert 'viewBox="0 0 37 37"' in qr_svg(address)


@pytest.mark.parametrize("address", ["8.8.8.8", "0.0.0.0", "::1", "evil.example", "192.168.1"])
def test_only_addresses_of_a_local_network_are_served(address: str) -> None:
    with pytest.raises(InputError, match="local network"):
        local_address(address)


def test_the_address_is_found_or_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    assert local_address("192.168.1.5") == "192.168.1.5"
    monkeypatch.setattr(telephones, "_outgoing", lambda: iter(["10.0.0.7"]))
    assert local_address(None) == "10.0.0.7"
    monkeypatch.setattr(telephones, "_outgoing", lambda: iter(()))
    with pytest.raises(InputError, match="in no local network"):
        local_address(None)


def test_no_way_out_is_no_address(monkeypatch: pytest.MonkeyPatch) -> None:
    class Probe(socket.socket):
        def connect(self, *_: object) -> None:
            raise OSError("no way")

    monkeypatch.setattr(telephones.socket, "socket", Probe)
    assert list(telephones._outgoing()) == []


def test_a_phone_needs_a_notebook(tmp_path: Path) -> None:
    done = CliRunner().invoke(command, ["--phone"], env={"OZONEWRIGHT_NOTEBOOK": ""})
    assert isinstance(done.exception, MissingValue)
    with pytest.raises(NotFound):
        server.serve(tmp_path / "none.sqlite", 0, False, print, "127.0.0.1", print)


@contextmanager
def served(file: Path) -> Iterator[tuple[str, str]]:
    """Serve in this process at two loopback addresses; give both."""
    said: dict[str, str] = {}
    ready = threading.Event()
    stop: list[server.Server] = []

    class Kept(server.Server):
        def __init__(self, *args: object) -> None:
            super().__init__(*args)  # type: ignore[arg-type]
            stop.append(self)

        @contextmanager
        def capture_signals(self) -> Iterator[None]:
            yield  # signals belong to the main thread

    def tell_phone(address: str) -> None:
        said["phone"] = address
        ready.set()

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(server, "Server", Kept)
        thread = threading.Thread(
            target=server.serve,
            args=(
                file,
                0,
                False,
                lambda address: said.update(desk=address),
                "127.0.0.2",
                tell_phone,
            ),
        )
        thread.start()
        assert ready.wait(20.0)
        yield said["desk"], said["phone"]
        stop[0].should_exit = True
        thread.join(20.0)


def test_a_real_server_at_two_addresses(tmp_path: Path) -> None:
    file = tmp_path / "bench.sqlite"
    Notebook.create(file, SECRET).close()
    with served(file) as (desk, phone):
        assert phone.startswith("http://127.0.0.2:")
        with urlopen(desk, timeout=10) as reply:
            assert SECRET in reply.read().decode()
        with urlopen(phone, timeout=10) as reply:
            text = reply.read().decode()
        assert "Use this telephone" in text
        assert SECRET not in text
        base, _, code = phone.partition("/in/")
        sent = Request(f"{base}/in", f"token={code}&code={code}".encode(), method="POST")
        with pytest.raises(OSError, match="403"):
            # urllib follows to /bench and sends no cookie there: a stranger again
            urlopen(sent, timeout=10)
