//! Small jobs with their plans, built from model values, so that every figure's cause stands in the test.

use std::collections::BTreeMap;
use wirelore::choose::{Choice, Cost, Method};
use wirelore::land::{self, Plan, PlannedItem, PlannedLoop, PlannedTrigger, SupplyPair};
use wirelore::model::{
    Band, Bands, Board, Cable, Conductor, Contact, ContactKind, Device, DeviceClass, DeviceSupply, DeviceTrigger,
    DoubleEol, Eol, Fact, Feed, Feeds, Fires, FitItem, Fuse, Grade, Input, InputUse, Job, Library, LoopState, Output,
    OutputKind, Panel, Power, PowerBlock, Priority, Reaction, Returns, Rules, Served, StandbyBattery, Supply, Survey,
    SurveyCable, SurveyLoad, TemperaturePoint, Unit, Wiring,
};
use wirelore::units::{AmpHours, Amps, Celsius, Hours, Metres, Ohms, Percent, Quantity, Volts, Window};
use wirelore::work::{Figures, Loading, work};

/// A quantity as a survey writes it.
pub(super) fn q<T: Quantity>(text: &str) -> T {
    T::read(text).unwrap_or_else(|wrong| panic!("{text}: {wrong:?}"))
}

/// A quantity from a number.
pub(super) fn amps(value: f64) -> Option<Amps> {
    Amps::new(value)
}

/// A window of two quantities.
pub(super) fn window<T: Quantity>(low: &str, high: &str) -> Option<Window<T>> {
    T::read(low).ok().zip(T::read(high).ok()).map(|(low, high)| Window { low, high })
}

/// A job in the making: cards, survey, and the parts of a plan.
pub(super) struct Site {
    pub(super) panel: Panel,
    pub(super) board: Board,
    pub(super) cable: Cable,
    pub(super) rules: Rules,
    pub(super) devices: BTreeMap<String, Device>,
    pub(super) survey: Survey,
    pub(super) items: Vec<PlannedItem>,
    pub(super) pairs: Vec<SupplyPair>,
    pub(super) triggers: Vec<PlannedTrigger>,
    pub(super) loops: Vec<PlannedLoop>,
}

impl Site {
    /// A panel that feeds a board; nothing on it yet.
    pub(super) fn new() -> Self {
        Self {
            panel: panel(),
            board: board(),
            cable: cable(),
            rules: rules(),
            devices: BTreeMap::new(),
            survey: survey(),
            items: Vec::new(),
            pairs: Vec::new(),
            triggers: Vec::new(),
            loops: Vec::new(),
        }
    }

    /// Adds a kept item on a cable of its own; gives its index, which is its cable's too.
    pub(super) fn add(&mut self, name: &str, device: Device, length: &str) -> usize {
        let index = self.survey.fit.len();
        self.survey.cables.push(survey_cable(index, name, &device.id, length));
        self.survey.fit.push(fit(name));
        self.devices.insert(device.id.clone(), device);
        let served = PlannedItem {
            item: index,
            cable: index,
            method: Method::None,
            input: None,
            cores: Vec::new(),
            spare: None,
        };
        self.items.push(served);
        index
    }

    /// Feeds items by the first board supply over so many cores of the cable of the first of them.
    pub(super) fn feed(&mut self, items: &[usize], positive: usize, negative: usize) -> &mut SupplyPair {
        let (positive, negative) = ((0..positive).collect(), (0..negative).collect());
        self.pairs.push(SupplyPair { cable: items[0], supply: 0, positive, negative, items: items.to_vec() });
        self.pairs.last_mut().expect("just pushed")
    }

    /// Fires an item's trigger by an output.
    pub(super) fn fire(&mut self, item: usize, trigger: usize, output: usize) {
        self.triggers.push(PlannedTrigger {
            item,
            trigger,
            output,
            contact: "open-collector",
            terminal: "OUT1".into(),
            common: None,
            core: 4,
        });
    }

    /// Puts items on the first input.
    pub(super) fn wire(&mut self, items: &[usize], wiring: Wiring, tamper: bool) {
        let ends_at_negative = tamper
            && items.iter().any(|i| {
                let name = &self.survey.cables[*i].serves[0].device;
                self.devices[name].tamper_returns() == Some(Returns::Negative)
            });
        self.loops.push(PlannedLoop { input: 0, items: items.to_vec(), wiring, tamper, ends_at_negative });
    }

    /// The figures of the job as it stands.
    pub(super) fn figures(&self) -> Figures {
        let library = Library {
            panels: BTreeMap::from([("panel-card".to_string(), self.panel.clone())]),
            boards: BTreeMap::from([("board-card".to_string(), self.board.clone())]),
            devices: self.devices.clone(),
            cables: BTreeMap::from([("cable-card".to_string(), self.cable.clone())]),
            rules: BTreeMap::from([("test-rules".to_string(), self.rules.clone())]),
            ..Library::default()
        };
        let job = Job::new(&library, &self.survey).expect("every card is there");
        let plan = Plan {
            choice: Choice {
                items: Vec::new(),
                tamper_input: None,
                cost: Cost::default(),
                mixed_outputs: 0,
                proven: true,
            },
            items: self.items.clone(),
            cables: Vec::new(),
            pairs: self.pairs.clone(),
            triggers: self.triggers.clone(),
            loops: self.loops.clone(),
            lengths: land::lengths(&job),
        };
        work(&job, &plan)
    }

    /// The row of the loading table with this name.
    pub(super) fn row(&self, what: &str) -> Loading {
        self.find_row(what).unwrap_or_else(|| panic!("no row {what}"))
    }

    /// The same, where there may be none.
    pub(super) fn find_row(&self, what: &str) -> Option<Loading> {
        self.figures().loading.into_iter().find(|row| row.what == what)
    }

    /// The power block of the panel.
    pub(super) fn block(&mut self) -> &mut PowerBlock {
        match &mut self.panel.unit.power {
            Fact::Is(block) => block,
            _ => panic!("the panel has a power block"),
        }
    }
}

/// A fuse of this rating.
pub(super) fn fuse(mark: &str, rating: &str) -> Fuse {
    Fuse {
        mark: mark.into(),
        rating: Some(q(rating)),
        speed: None,
        size: None,
        guards: None,
        place: None,
        cite: vec![],
    }
}

fn panel() -> Panel {
    let battery = StandbyBattery {
        fits: vec![q("2.1 Ah"), q("7 Ah"), q("17 Ah")],
        terminals: vec![],
        fuse: Some("F3".into()),
        cite: vec![],
    };
    let power = PowerBlock {
        out: None,
        volts: Some(q("13.7 V")),
        limit: Some(q("400 mA")),
        alarm_limit: Some(q("1 A")),
        fuse: Some("F2".into()),
        own: Some(q("60 mA")),
        charge: Some(q("300 mA")),
        cutoff: Some(q("10.5 V")),
        battery: Fact::Is(battery),
        quiet: None,
        cite: vec![],
    };
    let unit = Unit {
        id: "panel-card".into(),
        fuses: vec![fuse("F2", "1 A"), fuse("F3", "1.6 A")],
        power: Fact::Is(power),
        ..Unit::default()
    };
    Panel { unit, ..Panel::default() }
}

/// A supply of the board.
pub(super) fn supply(name: &str, limit: &str, fuse: Option<&str>) -> Supply {
    Supply {
        supply: name.into(),
        positive: format!("{name}+"),
        negative: format!("{name}-"),
        limit: Some(q(limit)),
        alarm_limit: None,
        fuse: fuse.map(String::from),
        feeds: Feeds::Any,
        drop: q("0 V"),
        drop_given: true,
        cite: vec![],
    }
}

/// An open-collector output.
pub(super) fn output(name: &str, limit: &str) -> Output {
    Output {
        output: name.into(),
        kind: OutputKind::OpenCollector { terminal: "OUT1".into() },
        limit: Some(q(limit)),
        pull_up: Fact::Absent,
        cite: vec![],
    }
}

/// A band from and to so many ohms.
pub(super) fn band(state: LoopState, from: Option<f64>, to: Option<f64>) -> Band {
    Band { state, from: from.and_then(Ohms::new), to: to.and_then(Ohms::new) }
}

fn bands() -> Bands {
    use LoopState::{Alarm, Normal, Short, Tamper};
    let single = vec![
        band(Short, None, Some(1500.0)),
        band(Normal, Some(1500.0), Some(7000.0)),
        band(Alarm, Some(7000.0), None),
    ];
    let mut double = single.clone();
    double[2].to = Ohms::new(13_000.0);
    double.push(band(Tamper, Some(13_000.0), None));
    Bands {
        closed_loop: Some(vec![band(Normal, None, Some(1000.0)), band(Alarm, Some(1000.0), None)]),
        single_eol: Some(single),
        double_eol: Some(double),
        cite: vec![],
    }
}

fn board() -> Board {
    Board {
        unit: Unit { id: "board-card".into(), fuses: vec![fuse("F1", "1 A")], ..Unit::default() },
        feed: Some(Feed {
            terminals: None,
            volts: window("10 V", "15 V"),
            standby: Some(q("140 mA")),
            alarm: Some(q("180 mA")),
            cite: vec![],
        }),
        supplies: vec![supply("AUX", "750 mA", Some("F1"))],
        inputs: vec![Input {
            input: "1".into(),
            out: "IN1".into(),
            back: "C1".into(),
            accepts: vec![Wiring::ClosedLoop, Wiring::SingleEol, Wiring::DoubleEol],
            usage: InputUse::Any,
            returns_negative: false,
            cite: vec![],
        }],
        eol: Eol {
            single: Some(q("4.7 kΩ")),
            double: Some(DoubleEol { end: q("4.7 kΩ"), alarm: q("4.7 kΩ") }),
            tolerance: Some(q("5 %")),
            cite: vec![],
        },
        bands: bands(),
        outputs: vec![output("SND", "1 A")],
    }
}

fn cable() -> Cable {
    Cable {
        id: "cable-card".into(),
        does: None,
        cores: ["red", "black", "blue", "yellow", "green", "white"].map(String::from).to_vec(),
        conductor: Some(Conductor::OhmsPerKm(q("80 Ω"))),
        rating: Some(q("1 A")),
    }
}

fn rules() -> Rules {
    let grade = Grade {
        grade: "2".into(),
        standby: Some(q("12 h")),
        standby_reported: Some(q("6 h")),
        alarm: Some(q("15 min")),
        recharge: Some(q("72 h")),
        cite: vec![],
    };
    let at = |at: &str, factor: f64| TemperaturePoint { at: q(at), factor };
    Rules {
        rules: "test-rules".into(),
        title: None,
        grades: vec![grade],
        ageing: Some(1.25),
        peukert: Some(1.15),
        // Capacity by temperature as a VRLA data sheet publishes it.
        temperature: vec![at("-15 C", 0.65), at("0 C", 0.85), at("25 C", 1.0), at("40 C", 1.02)],
        siren_cut_off: None,
    }
}

fn survey() -> Survey {
    Survey {
        survey: "test-survey".into(),
        site_name: None,
        address: None,
        monitored: None,
        mains_fail_reported: false,
        access: None,
        visited: None,
        by: None,
        rules: "test-rules".into(),
        grade: Some("2".into()),
        panel: "panel-card".into(),
        board: "board-card".into(),
        power: Some(Power::Panel),
        temperature: q::<Celsius>("20 C"),
        temperature_given: true,
        isolator: Fact::NotKnown,
        service_code: None,
        loads: vec![],
        battery: Fact::NotKnown,
        readings: vec![],
        fuses: vec![],
        cables: vec![],
        fit: vec![],
        remove: vec![],
        new_battery: Some(q::<AmpHours>("7 Ah")),
        settled: vec![],
    }
}

/// Another load of the source.
pub(super) fn load(name: &str, standby: f64, alarm: f64) -> SurveyLoad {
    SurveyLoad { name: name.into(), standby: amps(standby), alarm: amps(alarm) }
}

fn survey_cable(index: usize, item: &str, device: &str, length: &str) -> SurveyCable {
    let length: Metres = q(length);
    SurveyCable {
        cable: format!("C{}", index + 1),
        kind: "cable-card".into(),
        to: None,
        length: Some(Window { low: length, high: length }),
        label: None,
        ac: None,
        serves: vec![Served { item: item.into(), device: device.into(), reach: None, resistors: Fact::Absent }],
        cores: vec![],
        measured: vec![],
    }
}

fn fit(item: &str) -> FitItem {
    FitItem {
        item: item.into(),
        keep: true,
        device: None,
        place: None,
        share: None,
        reaction: Reaction::Instant,
        priority: Priority::Must,
    }
}

/// A normally-closed contact.
pub(super) fn contact(series: &str, returns: Option<Returns>) -> Fact<Contact> {
    Fact::Is(Contact { contact: Some(ContactKind::NormallyClosed), series: q(series), returns })
}

/// A device with nothing in it.
pub(super) fn device(id: &str) -> Device {
    Device {
        id: id.into(),
        maker: None,
        model: None,
        also: vec![],
        sources: vec![],
        does: None,
        class: Some(DeviceClass::Other),
        supply: Fact::Absent,
        alarm: Fact::Absent,
        tamper: Fact::Absent,
        triggers: vec![],
        volts: None,
        self_activating: None,
        reconnect: None,
        data: 0,
        bus: None,
        cautions: vec![],
    }
}

/// What a device is fed, in a window of 9 to 16 V.
pub(super) fn fed(standby: f64, alarm: f64) -> Fact<DeviceSupply> {
    Fact::Is(DeviceSupply { volts: window("9 V", "16 V"), standby: amps(standby), alarm: amps(alarm) })
}

/// A motion detector of 12 mA, 18 mA in alarm, 10 Ω in its alarm contact.
pub(super) fn detector() -> Device {
    Device {
        supply: fed(0.012, 0.018),
        alarm: contact("10 Ω", None),
        tamper: contact("0 Ω", None),
        ..device("motion-detector")
    }
}

/// A door contact with a tamper pair.
pub(super) fn door() -> Device {
    Device { alarm: contact("1 Ω", None), tamper: contact("2 Ω", None), ..device("door-contact") }
}

/// A trigger.
pub(super) fn trigger(name: &str, fires: Fires, current: f64) -> DeviceTrigger {
    DeviceTrigger { trigger: name.into(), fires: Some(fires), current: amps(current), pull_up: None }
}

/// An external sounder: 20 mA, siren 350 mA and strobe 120 mA by negative applied, a one-core tamper.
pub(super) fn sounder() -> Device {
    Device {
        class: Some(DeviceClass::ExternalSounder),
        supply: fed(0.02, 0.02),
        tamper: contact("0 Ω", Some(Returns::Negative)),
        triggers: vec![trigger("siren", Fires::NegativeApplied, 0.35), trigger("strobe", Fires::NegativeApplied, 0.12)],
        ..device("external-sounder")
    }
}

/// A sounder on two wires, in a window of 9 to 15 V.
pub(super) fn two_wire(fires: Fires, current: f64) -> Device {
    Device {
        class: Some(DeviceClass::Sounder),
        triggers: vec![trigger("siren", fires, current)],
        volts: window("9 V", "15 V"),
        ..device("piezo-sounder")
    }
}

/// Whether two figures are the same but for the last bits.
#[track_caller]
pub(super) fn near(figure: Option<f64>, expected: f64) {
    let close = figure.is_some_and(|f| (f - expected).abs() <= 1e-9 * expected.abs().max(1.0));
    assert!(close, "{figure:?} is not {expected}");
}

/// A tolerance in per cent.
pub(super) fn percent(value: f64) -> Option<Percent> {
    Percent::new(value / 100.0)
}

/// A length of time in hours.
pub(super) fn hours(value: f64) -> Option<Hours> {
    Hours::new(value)
}

/// A window of lengths.
pub(super) fn metres(low: f64, high: f64) -> Option<Window<Metres>> {
    Metres::new(low).zip(Metres::new(high)).map(|(low, high)| Window { low, high })
}

/// Volts from a number.
pub(super) fn volts(value: f64) -> Option<Volts> {
    Volts::new(value)
}
