"""A machine from a picture in a real browser: clicked, taped, fitted; the picture stays there."""

from __future__ import annotations

import math
from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, Page, expect

from liftcalc.figures.picture_guide import picture_guide
from liftcalc.figures.scene import Disc
from liftcalc.figures.styles import LOOKS, TONES
from liftcalc.machines.files import load
from liftcalc.web.photo import LENGTHS, TITLE
from studies.scenes import HEIGHT, WIDTH, Viewer, camera_for, in_space
from tests.browser.test_check_page import FINGER, SHOTS, SIZES, Open, type_in, visit, widths
from tests.browser.test_other_pages import go
from tests.browser.waiting import ran, settled

__all__ = ["visit"]  # a fixture
MACHINE = load("standard-sideshift")
GUIDE = picture_guide(MACHINE)


def pictured() -> tuple[bytes, dict[str, tuple[float, float]]]:
    """A picture of a machine in its yard, and where its points are in it [px]."""
    random = np.random.default_rng(7)
    spots = in_space(MACHINE, GUIDE.spots, random, 1.0)
    camera = camera_for(spots, random, 1.0)
    picture = Image.new("RGB", (WIDTH, HEIGHT), "#b9c7cf")
    draw = ImageDraw.Draw(picture)
    ground = [seen(camera, x, z=0.0, aside=y) for x, y in ((-14, -30), (14, -30), (6, 4), (-8, 4))]
    draw.polygon(ground, fill="#8d8877")
    for mark in GUIDE.scene.marks:
        corners = (
            [
                (
                    mark.centre[0] + mark.radius * math.cos(k / 8),
                    mark.centre[1] + mark.radius * math.sin(k / 8),
                )
                for k in range(51)
            ]
            if isinstance(mark, Disc)
            else mark.points
        )
        aside = 1.0 if mark.role in ("tyre", "rim") else 0.2
        outline = [seen(camera, x, z=z, aside=aside) for x, z in corners]
        tone = TONES[LOOKS[mark.role].fill][0]
        if isinstance(mark, Disc) or mark.closed:
            draw.polygon(
                outline, fill="#a8791c" if mark.role in ("link", "body") else tone, outline="#222"
            )
    file = BytesIO()
    picture.save(file, "PNG")
    return file.getvalue(), {name: tuple(camera.sees(at)) for name, at in spots.items()}


def seen(camera: Viewer, x: float, *, z: float, aside: float) -> tuple[float, float]:
    u, v = camera.sees(np.array([x, aside, z, 1.0]))
    return float(u), float(v)


class Hand:
    """Chooses a picture and clicks in it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.view = page.locator("canvas.view")
        self.picture, self.at = pictured()

    def choose(self) -> None:
        file = {"name": "yard.png", "mimeType": "image/png", "buffer": self.picture}
        self.page.locator("input[type=file]").set_input_files(file)
        expect(self.view).to_be_visible()

    def asked(self) -> str:
        return self.page.locator("select option:checked").inner_text().removeprefix("✓ ")

    def click(self, name: str, *, off: float = 0.0) -> None:
        self.view.scroll_into_view_if_needed()
        box = self.view.bounding_box()
        assert box is not None
        scale = min(box["width"] / WIDTH, box["height"] / HEIGHT)
        left, top = (box["width"] - scale * WIDTH) / 2, (box["height"] - scale * HEIGHT) / 2
        u, v = self.at[name]
        self.page.mouse.click(box["x"] + left + scale * u, box["y"] + top + scale * (v + off))

    def click_all(self) -> None:
        for name in self.at:
            assert self.asked() == name
            self.click(name)


@pytest.mark.parametrize("size", SIZES)
def test_pins_are_clicked_and_come_out_with_their_tolerance(visit: Open, size: str) -> None:
    page = visit(size)
    sent: list[int] = []
    page.on("websocket", lambda to: to.on("framesent", lambda frame: sent.append(len(frame))))
    page.on("request", lambda asked: sent.append(len(asked.post_data_buffer or b"")))
    go(page, "From a picture")
    expect(page.get_by_role("heading", name=TITLE, level=1)).to_be_visible()
    settled(page)
    page.screenshot(path=SHOTS / f"picture-start-{size}.png", full_page=True)
    hand = Hand(page)
    hand.choose()
    hand.click("rear hub")
    page.screenshot(path=SHOTS / f"picture-asked-{size}.png", full_page=True)
    page.get_by_role("button", name="Undo").click()
    assert hand.asked() == "rear hub"
    hand.click_all()
    for first, second, label, _ in LENGTHS[:3]:
        length = math.dist(GUIDE.spots[first], GUIDE.spots[second])
        ran(page, lambda label=label, length=length: type_in(page, label, f"{length:.2f} m"))
    verdict = page.locator(".lc-verdict")
    expect(verdict).to_contain_text("places, each within", timeout=30_000)
    settled(page)
    row = page.locator("tr", has_text="foot pin on the boom to the knuckle").first
    shown = float(row.locator("td").first.inner_text().split()[0])
    boom = math.dist(GUIDE.spots["foot pin"], GUIDE.spots["knuckle"])
    assert shown == pytest.approx(boom, abs=0.04)
    page.screenshot(path=SHOTS / f"picture-fitted-{size}.png", full_page=True)
    held, wide = widths(page)
    assert held <= wide
    for button in page.locator(".photo button:visible").all():
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= FINGER - 0.5
    # The picture was never sent: all that was is smaller.
    assert sum(sent) < len(hand.picture)


def test_a_misclick_of_the_ground_is_named_and_mended_by_undo(visit: Open) -> None:
    page = visit("laptop")
    go(page, "From a picture")
    hand = Hand(page)
    hand.choose()
    for name in ("rear hub", "front hub"):
        hand.click(name)
    hand.click("rear tyre", off=-150.0)
    for name in list(hand.at)[3:]:
        hand.click(name)
    for first, second, label, _ in LENGTHS[:3]:
        length = math.dist(GUIDE.spots[first], GUIDE.spots[second])
        ran(page, lambda label=label, length=length: type_in(page, label, f"{length:.2f} m"))
    answer = page.locator(".lc-answer")
    expect(answer).to_contain_text("rear tyre", timeout=30_000)
    page.screenshot(path=SHOTS / "picture-slip.png", full_page=True)
    page.locator(".photo select").select_option(index=2)
    hand.click("rear tyre")
    expect(answer).not_to_contain_text("rear tyre", timeout=30_000)


def test_keys_do_what_a_hand_does(visit: Open) -> None:
    page = visit("laptop")
    go(page, "From a picture")
    hand = Hand(page)
    hand.choose()
    hand.view.focus()
    for key in ("ArrowLeft", "ArrowUp", "Enter"):
        page.keyboard.press(key)
    assert hand.asked() == "front hub"
    page.keyboard.press("Backspace")
    assert hand.asked() == "rear hub"


def test_a_finger_taps_holds_and_two_zoom(browser: Browser, address: str) -> None:
    width, height = SIZES["phone"]
    context = browser.new_context(
        viewport={"width": width, "height": height}, has_touch=True, is_mobile=True
    )
    page = context.new_page()
    page.goto(f"{address}/picture")
    expect(page.get_by_text("Choose a picture")).to_be_visible(timeout=60_000)
    settled(page)
    hand = Hand(page)
    hand.choose()
    hand.view.scroll_into_view_if_needed()
    box = hand.view.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.touchscreen.tap(x, y)
    expect(page.locator(".photo .count")).to_contain_text("2 /")

    fingers = context.new_cdp_session(page)

    def touch(kind: str, *places: tuple[float, float]) -> None:
        points = [{"x": a, "y": b, "id": k} for k, (a, b) in enumerate(places)]
        fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", (x + 60, y))
    expect(page.locator("canvas.loupe")).to_be_visible()
    touch("touchMove", (x + 40, y + 5))
    page.screenshot(path=SHOTS / "picture-loupe-phone.png")
    touch("touchEnd")
    expect(page.locator(".photo .count")).to_contain_text("3 /")
    expect(page.locator("canvas.loupe")).to_be_hidden()

    touch("touchStart", (x - 20, y), (x + 20, y))
    for step in range(1, 8):
        touch("touchMove", (x - 20 - 8 * step, y), (x + 20 + 8 * step, y))
    touch("touchEnd")
    page.screenshot(path=SHOTS / "picture-pinched-phone.png")
    # Two fingers place nothing.
    expect(page.locator(".photo .count")).to_contain_text("3 /")
    times = page.locator(".photo").evaluate(
        "box => box.widget.view.scale / box.widget.view.least()"
    )
    assert 2.0 < times < 6.0  # fingers 40 px apart, then 152
    context.close()
