"""False floors: from the record to supports, lids and metres of cover, on page, sheet and file."""

from __future__ import annotations

import io

import ezdxf
import pytest
from django.urls import reverse
from django.utils import timezone

from acoustics.carcass.panels.floor import Hatch
from acoustics.carcass.shape.outline import rectangle
from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.floors import HatchCut
from jobs.design.wood.marking import marks_of
from jobs.design.wood.pieces import Piece
from jobs.design.wood.trim import rolls_of
from jobs.models import Cover, Part, SheetKind, SheetMaterial, TrimPanel
from jobs.pages.wood.rings_and_trim import TrimPanelForm
from jobs.sheets import dxf
from jobs.sheets.issue import printed
from jobs.sheets.registry import SHEETS, Options
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db

SUPPORTS = [["batten", 0.45, 0.05, 0.8, 0.04], ["block", 0.12, 0.62, 0.1, 0.1, 0.08],
            ["batten", 0.7, 0.6, 0.3, 0.04]]  # fmt: skip
HATCH = [0.5, 0.3, 0.3, 0.2, 0.0015, 0.03, 0.04, "magnets", "fuses of the amplifiers"]


@pytest.fixture
def floor(hatchback) -> TrimPanel:
    """A floor under carpet in the hatchback, with a hatch."""
    carpet = Cover.objects.create(
        kind=Part.Kind.COVER, name="Loop carpet", thickness=0.004, roll_width=1.5, directed=True,
        area_mass=0.9, price=24,
    )  # fmt: skip
    panel = TrimPanel(
        job=hatchback.job, name="Boot floor", kind=TrimPanel.Kind.FLOOR, level=0.12, width=0.9,
        height=0.7, material=hatchback.cover.material, cover=carpet, sample="no. 3",
        held_by=TrimPanel.Held.MAKERS, beneath_listed=True, bears=20.0,
    )  # fmt: skip
    SheetMaterial.objects.update(stiffness=9e9, strength=4e7)  # of the size that sheets have
    panel.supports, panel.hatches = SUPPORTS, [HATCH]
    panel.save()
    return panel


def result_of(floor, **changed):
    """What a floor comes to with something changed, and its job."""
    records = load(floor.job)
    record = next(panel for panel in records.trim_panels if panel.pk == floor.pk)
    for name, value in changed.items():
        setattr(record, name, value)
    design = work_out(records)
    return next(trim for trim in design.trims if trim.record is record), design


def test_a_floor_comes_to_board_lid_ledge_supports_and_cover(floor):
    """16.1 mm of board and 4 mm of carpet leave 99.9 mm of 120; a measured height stays."""
    result, design = result_of(floor)
    assert [piece.label for piece in result.pieces] == ["T2", "T2L1", "T2S1", "T2S2"]
    assert result.pieces[1].size == pytest.approx((0.281, 0.181))
    thickness = result.material.thickness
    assert [prop.height for prop in result.props] == pytest.approx(
        [0.12 - thickness - 0.004, 0.08, 0.12 - thickness - 0.004]
    )
    laid = {
        plan.pieces[part.blank.number].label
        for plan in work_out_cutting(design.records, design.boxes, design.trims).plans
        for sheet in plan.nest.sheets
        for part in sheet.parts
    }
    assert {"T2", "T2L1", "T2S1", "T2S2"} <= laid
    (order,) = rolls_of(design.trims)
    # 0.9 + 2 (board + 40 mm) across, 0.7 + as much along; the lid lies beside it.
    assert order.roll.length == pytest.approx(0.7 + 2 * (thickness + 0.04))
    (line,) = [line for line in design.price.lines if line.name == "Loop carpet"]
    assert (float(line.quantity), float(line.net)) == (0.9, pytest.approx(0.9 * 24))
    assert not [f for f in design.findings if f.about.is_of(about(floor)) and f.severity == "stop"]


def test_its_mass_is_board_supports_and_cover(floor):
    """Boards and supports by their volumes, the cover by whole rectangles."""
    result, design = result_of(floor)
    rows = {row.key: row.mass for row in design.masses.rows}
    t, density = result.material.thickness, result.material.density
    board = 0.9 * 0.7 - 0.3 * 0.2
    lid = 0.281 * 0.181 - result.pieces[1].holes[0].area
    strips = 2 * 0.06 * (0.36 + 0.14)
    tall = 0.12 - t - 0.004
    props = 0.8 * 0.04 * tall + 0.01 * 0.08 + 0.3 * 0.04 * tall
    wanted = density * (t * (board + lid + strips) + props)
    assert rows[about(floor).id] == pytest.approx(wanted)
    more = 2 * (t + 0.04)
    cover = (0.9 + more) * (0.7 + more) + (0.281 + more) * (0.181 + more)
    assert rows[f"{about(floor).id} cover"] == pytest.approx(0.9 * cover)


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        ({"supports": None}, "floor-on-no-support"),
        ({"level": 0.01}, "floor-thicker-than-level"),
        ({"level": None}, "missing"),
        ({"hatches": [[*HATCH[:5], 0.009, *HATCH[6:]]]}, "lid-falls-through"),
        ({"hatches": [[0.5, 0.65, *HATCH[2:]]]}, "opening-reaches-rim"),
    ],
)
def test_a_floor_that_cannot_be_is_refused(floor, changed, code):
    """Nothing of it is cut, each says why, and how it is held is asked all the same."""
    result, _design = result_of(floor, **changed, held_by=TrimPanel.Held.LOOSE)
    assert (result.refused.code, result.pieces) == (code, ())
    assert [f.code for f in result.findings if f.severity == "stop"][-1] == "panel-unfixed"


@pytest.mark.parametrize(
    ("changed", "codes"),
    [
        ({"sample": " "}, {"cover-sample-open"}),
        ({"held_by": TrimPanel.Held.LOOSE}, {"panel-unfixed"}),
        ({"held_by": TrimPanel.Held.UNSAID}, {"panel-fixing-unknown"}),
        ({"held_by": TrimPanel.Held.BRACKETS}, {"panel-into-nothing"}),
        ({"hatches": [[*HATCH[:6], None, *HATCH[7:]]]}, {"lid-without-grip"}),
        ({"bears": None}, {"floor-load-unknown"}),
        ({"bears": 2000.0}, {"floor-edge-sags", "floor-may-break"}),
        (
            {"width": 1.55},
            {"cover-wider-than-roll", "floor-overhangs", "floor-edge-sags"},
        ),
        ({"supports": SUPPORTS[:1]}, {"floor-tips"}),
    ],
)
def test_what_is_open_about_a_floor_is_found(floor, changed, codes):
    """A sample nobody approved, a lid nobody lifts, cover beyond the roll, a floor that tips."""
    _result, design = result_of(floor, **changed)
    assert {f.code for f in design.findings if f.about.is_of(about(floor))} == codes


def test_what_is_not_known_of_a_cover_is_asked_for(floor):
    """Without a thickness its edges count as bare and that is said; without a width no metres."""
    Cover.objects.update(thickness=None, roll_width=None)
    result, design = result_of(floor)
    asked = {f.code for f in design.findings if f.about.is_of(about(floor))}
    assert asked == {"cover-thickness-unknown", "cover-roll-unknown"}
    assert rolls_of(design.trims)[0].roll is None
    assert result.pieces[1].size == pytest.approx((0.297, 0.197))
    # A typed thickness is never overwritten by the catalogue's.
    typed_one, design = result_of(floor, finish=0.002)
    assert typed_one.pieces[1].size == pytest.approx((0.289, 0.189))
    assert "cover-thickness-unknown" not in {f.code for f in design.findings}


def test_the_page_answers_at_the_field_and_keeps_what_was_typed(floor, browse):
    """A floor on no support is refused beside its list while it is typed; bad cells stay."""
    sent = {k: "" if v is None else v for k, v in typed(TrimPanelForm(instance=floor)).items()}
    lists = {name: value for name, value in sent.items() if not name.startswith("supports-")}
    client = browse("designer")
    live = reverse("trim-panel-preview", args=[floor.job.code])
    answer = client.post(live, sent | {"row": floor.pk}).content.decode()
    assert "281.0" in answer.replace("\N{NO-BREAK SPACE}", " ")
    empty = {name: [""] * 6 for name in sent if name.startswith("supports-")}
    answer = client.post(live, lists | empty | {"row": floor.pk}).content.decode()
    assert "needs something to stand on" in answer
    wrong = sent | {"hatches-ledge": ["12 bananas"]}
    answer = client.post(reverse("trim-panel-edit", args=[floor.job.code, floor.pk]), wrong)
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "hatches", "12 bananas")


def test_the_cut_sheet_says_all_a_hand_needs(floor):
    """Supports with their heights, the lid, its magnets, the metres, the sample."""
    design = work_out(load(floor.job))
    text, _data = printed(
        design, SHEETS[SheetKind.CUT], Options(), revision=None, at=timezone.now()
    )
    text = " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())
    sizes = ("T2L1", "T2S1", "281 mm × 181 mm", "80 mm", "0.9 m")
    for wanted in (*sizes, "magnets (4", "no. 3", "fuses of the amplifiers"):
        assert wanted in text, wanted


def test_the_files_of_a_floor_hold_its_opening_and_no_line_of_its_supports(floor):
    """The hatch is cut, supports stand among the notes, and the lid is a file of its own."""
    _result, design = result_of(floor)
    files = dxf.drawings(work_out_cutting(design.records, design.boxes, design.trims), {})
    board = ezdxf.read(io.StringIO(files["parts/T2-boot-floor.dxf"])).modelspace()
    cut = [e for e in board.query("LWPOLYLINE") if e.dxf.layer == "CUT"]
    assert len(cut) == 2
    assert sum(e.dxf.layer == "NOTES" for e in board.query("LWPOLYLINE")) == 3
    assert "parts/T2L1-boot-floor.dxf" in files


@pytest.fixture
def board(hatchback) -> TrimPanel:
    """A board for the amplifier of the hatchback, its size entered in the catalogue."""
    part = hatchback.six.part.amplifier
    part.body_length, part.body_width, part.body_height = 0.3, 0.2, 0.06
    part.holes_along, part.holes_across, part.fixing_hole, part.air_round = 0.28, 0.17, 0.004, 0.03
    part.save()
    panel = TrimPanel(
        job=hatchback.job, name="Board", kind=TrimPanel.Kind.BOARD, width=0.4, height=0.4,
        material=hatchback.cover.material, room_above=0.1,
        held_by=TrimPanel.Held.INSERTS, held_into="4 x M6",
    )  # fmt: skip
    panel.mounts = [[part.pk, 0.2, 0.2, True]]
    panel.save()
    return panel


def test_an_amplifier_board_is_drilled_for_what_stands_on_it(board, browse):
    """Turned a quarter its screws are 170 mm apart across; its name stands on page and sheet."""
    result, design = result_of(board)
    places = {tuple(round(v, 4) for v in hole.centre) for hole in result.piece.pilots}
    assert places == {(0.115, 0.06), (0.285, 0.06), (0.285, 0.34), (0.115, 0.34)}
    assert not [f for f in design.findings if f.about.is_of(about(board))]
    files = dxf.drawings(work_out_cutting(design.records, design.boxes, design.trims), {})
    space = ezdxf.read(io.StringIO(files["parts/T2-board.dxf"])).modelspace()
    drilled = [e for e in space.query("CIRCLE") if e.dxf.layer == "DRILL"]
    assert {(round(e.dxf.center.x), round(e.dxf.center.y)) for e in drilled} == {
        (115, 60), (285, 60), (285, 340), (115, 340),
    }  # fmt: skip
    page = browse("designer").get(reverse("trim-panel-edit", args=[board.job.code, board.pk]))
    assert str(result.on_it[0].name) in page.content.decode()


@pytest.mark.parametrize(
    ("changed", "codes"),
    [
        ({"room_above": 0.08}, {"mount-without-air"}),
        ({"room_above": None}, {"mount-height-unknown"}),
        ({"width": 0.28, "height": 0.28}, {"mount-beyond-board"}),
        ({"mounts": [[999_999, 0.2, 0.2, False]]}, {"mount-not-listed"}),
    ],
)
def test_what_is_wrong_on_a_board_is_found(board, changed, codes):
    """Too little air, a room nobody measured, over the edge, a part the job does not have."""
    _result, design = result_of(board, **changed)
    assert {f.code for f in design.findings if f.about.is_of(about(board))} == codes


def test_an_amplifier_of_no_known_size_is_not_counted_in_silence(board):
    """Its size is asked for, and no hole is drilled."""
    part = load(board.job).equipment
    amplifier = next(item.part.amplifier for item in part if item.part.kind == "amplifier")
    type(amplifier).objects.update(body_length=None)
    result, design = result_of(board)
    assert result.piece.pilots == ()
    assert {f.code for f in design.findings if f.about.is_of(about(board))} == {
        "mount-size-unknown"
    }


def test_a_measured_space_gives_the_wood_less_gap_and_both_covers(floor):
    """900 by 700 mm less twice 2 mm of gap, 4 mm of its cover and 3 mm on what it meets."""
    space = {"measured": TrimPanel.Measured.SPACE, "edge_gap": 0.002, "beside": 0.003}
    result, _design = result_of(floor, **space)
    assert result.piece.size == pytest.approx((0.9 - 0.018, 0.7 - 0.018))
    # What is typed still counts from the corner of the space.
    left, low, right, high = result.piece.holes[0].polygon.bounds
    assert ((left + right) / 2, (low + high) / 2) == pytest.approx((0.491, 0.291))
    outline = [[0, 0, 0, 0.05], [0.9, 0], [0.9, 0.7, 0.03], [0, 0.7]]
    rounded, _design = result_of(floor, outline=outline, stations=[[2, 0.35, 0.01]], **space)
    marks = [(mark.what, mark.radius) for mark in marks_of(rounded.piece)]
    assert ("top of the arc after corner 3", pytest.approx(3.39 - 0.009, abs=1e-3)) in marks
    assert [what for what, _radius in marks if "rounded" in what] == ["corner 1, rounded"] * 2


@pytest.mark.parametrize(
    ("held", "magnets", "hinge"), [("magnets", 4, None), ("hinge", 0, 0.291), ("loose", 0, None)]
)
def test_a_lid_has_what_holds_it(held, magnets, hinge):
    """Four magnets, or a hinge as long as the bare lid: 300 mm less a gap and covers all round."""
    hatch = Hatch(middle=(0.5, 0.3), width=0.3, height=0.2, gap=0.0015, finish=0.0015, ledge=0.03)
    lid = Piece(
        label="T1L1", name="lid", quantity=1, thickness=0.015, outline=rectangle(0, 0, *hatch.lid)
    )
    cut = HatchCut(number=1, hatch=hatch, lid=lid, ledges=(), held=held, over="")
    assert cut.magnets == magnets
    assert cut.hinge == (hinge if hinge is None else pytest.approx(hinge))
