"""One file per noun the workshop uses; this is the list of them."""

from jobs.models.aftercare.lot import CableLot
from jobs.models.aftercare.visit import ServiceVisit
from jobs.models.agreement.conversation import Conversation
from jobs.models.agreement.message import Message
from jobs.models.agreement.offer import Offer, Payment, WorkTime
from jobs.models.agreement.option import DesignOption, OptionCopy
from jobs.models.agreement.price_line import PriceLine
from jobs.models.agreement.rates import TaxClass, TaxRate, WorkKind
from jobs.models.base import Record
from jobs.models.bay import (
    BayAct,
    BayNote,
    CarAnswer,
    CautionRead,
    FactoryAsBuilt,
    GateSign,
    ItemAsBuilt,
    Measurement,
    PanelClosing,
    RunAsBuilt,
    StageRelease,
)
from jobs.models.box.box import Box, BoxCorner, InnerBrace, Obstacle, SideThickness
from jobs.models.box.box_as_built import BoxAsBuilt
from jobs.models.box.floor import TrimBeneath, TrimHatch, TrimMount, TrimSupport
from jobs.models.box.moulded import BoxFill, BoxSection
from jobs.models.box.trim import Ring, TrimCorner, TrimOpening, TrimPanel, TrimStation
from jobs.models.box.wood_step import WoodStep
from jobs.models.calendar import Absence, Bay, Booking
from jobs.models.car_template import CarTemplate
from jobs.models.channel_plan import (
    Channel,
    ChannelCurve,
    ChannelSetting,
    FilterShape,
    ProcessorFile,
    TargetCurve,
)
from jobs.models.curves import BoxSweep, CabinCurve, DriverSweep
from jobs.models.decisions import Decision
from jobs.models.equipment import EquipmentItem, FactoryPart
from jobs.models.intake import Intake, IntakeMark
from jobs.models.job import Job, JobPart, Stage
from jobs.models.origin import Origin
from jobs.models.panels import (
    DampingLayer,
    Fixing,
    Panel,
    PanelContent,
    PanelStep,
    Photo,
    PhotoMark,
    WithdrawnCode,
)
from jobs.models.parts.catalogue import (
    Amplifier,
    AmplifierRating,
    Conductor,
    Cover,
    Damping,
    Driver,
    Fuse,
    Holder,
    Part,
    PartPicture,
    Processor,
    SheetMaterial,
    Terminal,
)
from jobs.models.parts.offcut import Offcut
from jobs.models.parts.part_list import PartList
from jobs.models.parts.supply import Supply
from jobs.models.people import Customer, Role, User
from jobs.models.sheets import CustomerPage, IssuedSheet, PrintOrder, PrintWorker, SheetKind
from jobs.models.sides import Side
from jobs.models.sign_in import AccountEvent, Session
from jobs.models.vehicle import Vehicle
from jobs.models.wiring.grounds import GroundPoint, LoomJoin
from jobs.models.wiring.power_tree import PowerNode, Run
from jobs.models.wiring.stretch import Stretch
from jobs.models.words import Word
from jobs.models.workshop import Workshop

__all__ = [
    "Absence",
    "AccountEvent",
    "Amplifier",
    "AmplifierRating",
    "Bay",
    "BayAct",
    "BayNote",
    "Booking",
    "Box",
    "BoxAsBuilt",
    "BoxCorner",
    "BoxFill",
    "BoxSection",
    "BoxSweep",
    "CabinCurve",
    "CableLot",
    "CarAnswer",
    "CarTemplate",
    "CautionRead",
    "Channel",
    "ChannelCurve",
    "ChannelSetting",
    "Conductor",
    "Conversation",
    "Cover",
    "Customer",
    "CustomerPage",
    "Damping",
    "DampingLayer",
    "Decision",
    "DesignOption",
    "Driver",
    "DriverSweep",
    "EquipmentItem",
    "FactoryAsBuilt",
    "FactoryPart",
    "FilterShape",
    "Fixing",
    "Fuse",
    "GateSign",
    "GroundPoint",
    "Holder",
    "InnerBrace",
    "Intake",
    "IntakeMark",
    "IssuedSheet",
    "ItemAsBuilt",
    "Job",
    "JobPart",
    "LoomJoin",
    "Measurement",
    "Message",
    "Obstacle",
    "Offcut",
    "Offer",
    "OptionCopy",
    "Origin",
    "Panel",
    "PanelClosing",
    "PanelContent",
    "PanelStep",
    "Part",
    "PartList",
    "PartPicture",
    "Payment",
    "Photo",
    "PhotoMark",
    "PowerNode",
    "PriceLine",
    "PrintOrder",
    "PrintWorker",
    "Processor",
    "ProcessorFile",
    "Record",
    "Ring",
    "Role",
    "Run",
    "RunAsBuilt",
    "ServiceVisit",
    "Session",
    "SheetKind",
    "SheetMaterial",
    "Side",
    "SideThickness",
    "Stage",
    "StageRelease",
    "Stretch",
    "Supply",
    "TargetCurve",
    "TaxClass",
    "TaxRate",
    "Terminal",
    "TrimBeneath",
    "TrimCorner",
    "TrimHatch",
    "TrimMount",
    "TrimOpening",
    "TrimPanel",
    "TrimStation",
    "TrimSupport",
    "User",
    "Vehicle",
    "WithdrawnCode",
    "WoodStep",
    "Word",
    "WorkKind",
    "WorkTime",
    "Workshop",
]
