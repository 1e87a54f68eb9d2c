"""Measuring in the browser: a car simulated in its own audio, a file as microphone, a refusal."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Page, expect

from acoustics.setup.wav import wav
from tests.browser.conftest import Site
from tests.browser.server import BROWSER_ARGS, JOB, chromium_path
from tests.jobs.takes import RATE, Heard

pytestmark = [pytest.mark.browser, pytest.mark.served]
ADDRESS = f"/jobs/{JOB}/set-up/microphone/"
TAKES = 3
TAKE = 90_000  # ms: it is played in real time, and worked out on a machine that may be busy
# What leaves the page for the speakers goes through a car instead, and on to the microphone: the
# left side 1 ms later than the right one and turned round. Page and car share a clock and a thread,
# so that a busy machine loses no samples between them.
CAR = """
const air = new AudioContext({ sampleRate: 48000, latencyHint: "playback" });
const ear = air.createMediaStreamDestination();
window.AudioContext = function () { return air; };
navigator.mediaDevices.getUserMedia = async () => ear.stream;
const connect = AudioNode.prototype.connect;
AudioNode.prototype.connect = function (target, ...rest) {
  if (!(this instanceof AudioBufferSourceNode && target instanceof AudioDestinationNode))
    return connect.call(this, target, ...rest);
  const sides = new ChannelSplitterNode(air, { numberOfOutputs: 2 });
  connect.call(this, sides);
  [[-0.3, 0.0015], [0.3, 0.0005]].forEach(([gain, delayTime], side) => {
    const loud = new GainNode(air, { gain });
    connect.call(sides, loud, side);
    connect.call(connect.call(loud, new DelayNode(air, { delayTime })), ear);
  });
};
"""


def measure(page: Page, site: Site) -> str:
    """Fill the page in, let it play and record, and return what it says then.

    Whoever is told that the machine lost samples records again, as the page says.
    """
    page.goto(ADDRESS)
    page.select_option("#id_channel", index=1)
    page.fill("#id_place", "driver's seat, simulated")
    page.fill("#id_measured_by", "Ina")
    status = page.locator("[data-part=status]")
    for _ in range(TAKES):
        site.complaints.clear()
        page.click("[data-part=start]")
        expect(status).to_have_text(re.compile("Done|not kept|could not|sent"), timeout=TAKE)
        answer = status.inner_text() + page.locator("[data-part=result]").inner_text()
        if "samples were lost" not in answer:
            break
    return answer


def told(said: str) -> tuple[float, float]:
    """Delay and how far it may be off, in milliseconds."""
    figures = re.search(r"arrives\s([\d.]+)\sms after the mark, ±\s([\d.]+)\sms", said)
    assert figures, said
    return float(figures[1]), float(figures[2])


def test_a_car_in_the_browsers_own_audio_is_measured(visit, site):
    """The page's own sweep, through a simulated car, comes back a millisecond late and turned."""
    page = visit("installer")
    page.add_init_script(CAR)
    said = measure(page, site)
    delay, within = told(said)
    assert delay == pytest.approx(1.0, abs=within + 0.01)
    assert "polarity is turned" in said
    # The simulated microphone does not say what it does to the sound, and the page says that.
    assert "does not say whether" in page.locator("[data-part=told]").inner_text()


def test_a_file_as_microphone_is_measured(visit, browser, site, tmp_path: Path):
    """Chromium plays a recording of a car as its microphone, at its own clock."""
    file = tmp_path / "car.wav"
    heard = Heard()
    heard.samples_of = np.concatenate([np.zeros(2 * RATE), heard.samples_of])
    heard.seconds += 2.0
    file.write_bytes(b"".join(wav(heard, rate=RATE, bits=16)))
    fake = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]
    args = [*BROWSER_ARGS, *fake, f"--use-file-for-fake-audio-capture={file}"]
    visit("installer")  # the demo as it was loaded
    own = browser.browser_type.launch(executable_path=chromium_path(), args=args)
    context = own.new_context(base_url=site.address, storage_state=site.cookies["installer"])
    page = context.new_page()
    said = measure(page, site)
    delay, within = told(said)
    assert delay == pytest.approx(1.0, abs=within + 0.01)
    assert "polarity is turned" in said
    own.close()


@pytest.mark.parametrize(
    ("lent", "says"),
    [
        ("throw new DOMException('', 'NotAllowedError')", "was refused"),
        ("throw new DOMException('', 'NotFoundError')", "has no microphone"),
        ("throw new DOMException('', 'NotReadableError')", "another program"),
        (
            "const stream = new AudioContext().createMediaStreamDestination().stream;"
            "stream.getAudioTracks()[0].getSettings = () => ({ sampleRate: 16000 });"
            "return stream",
            "records at 16000 Hz",
        ),
    ],
)
def test_a_microphone_that_will_not_do_has_an_answer_of_its_own(visit, lent, says):
    """Refused, not there, held by something else, and made for telephone calls."""
    page = visit("installer")
    page.add_init_script(f"navigator.mediaDevices.getUserMedia = async () => {{ {lent} }}")
    page.goto(ADDRESS)
    page.select_option("#id_channel", index=1)
    page.fill("#id_place", "driver's seat")
    page.click("[data-part=start]")
    expect(page.locator("[data-part=status]")).to_contain_text(says)


def test_a_page_that_is_not_secure_says_so(visit):
    """Without https a browser lends no microphone: nothing can be started."""
    page = visit("installer")
    page.add_init_script("Object.defineProperty(window, 'isSecureContext', { value: false })")
    page.goto(ADDRESS)
    expect(page.locator("[data-part=status]")).to_contain_text("https")
    expect(page.locator("[data-part=start]")).to_be_disabled()
