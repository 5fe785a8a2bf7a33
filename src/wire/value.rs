//! How single values stand on the wire: quantities as `"8 ft"` or `{"value":
//! 8, "unit": "ft"}`, numbers, names, lists.

use super::Node;
use super::reading::{Path, Problems};
use super::schema::{Definitions, object};
use crate::units::{
    Angle, Area, Dimension, FlexuralRigidity, Force, ForcePerVolume, Length, LineLoad, MassDensity,
    Measurable, Measure, Measured, Pressure, SecondMoment, Torque, UnitSystem, Velocity, Volume,
    parse,
};
use crate::utilization::Utilization;

/// In which units quantities are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Style {
    /// In SI base units: read again, every number has the same bits.
    Exact,
    /// As usual in a unit system.
    System(UnitSystem),
}

/// Something that stands on the wire.
///
/// Reading keeps every problem it meets and goes on; it gives nothing where
/// there was one.
pub(super) trait Wire: Sized {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self>;
    fn write(&self, style: Style) -> Node;
    fn schema(definitions: &mut Definitions) -> Node;

    /// What a missing field means; most must not be missing.
    fn missing(at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        problems.add(at, None, "this field is missing");
        None
    }

    /// Is there nothing to write?
    fn is_absent(&self) -> bool {
        false
    }
}

/// Reads a quantity.
fn read_quantity<Q: Measurable>(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Q> {
    let dimension = Q::DIMENSION;
    match node {
        Node::Text(text) => match parse(text) {
            Ok(quantity) => Some(quantity),
            Err(why) => {
                problems.add(at, Some(node), why.to_string());
                None
            }
        },
        Node::Object(fields) => {
            let before = problems.len();
            for (name, _) in fields {
                if name != "value" && name != "unit" {
                    problems.add(&at.field(name), None, "only `value` and `unit` stand here");
                }
            }
            if fields.len() > 2 {
                problems.add(at, None, "`value` and `unit` stand here once");
            }
            let value = f64::read_field(node, "value", at, problems);
            let unit = String::read_field(node, "unit", at, problems);
            let (value, unit) = (value?, unit?);
            let named = |unit: &str| {
                dimension
                    .units()
                    .iter()
                    .find(|known| known.symbol == unit || known.aliases.contains(&unit))
            };
            let Some(known) = named(&unit) else {
                let allowed = format!("a unit of {}: {}", dimension.word(), symbols(dimension));
                problems.add(&at.field("unit"), Some(&Node::text(unit)), allowed);
                return None;
            };
            let si = value * known.factor();
            if !si.is_finite() {
                problems.add(at, None, "the number is too large");
                return None;
            }
            (problems.len() == before).then(|| Q::from_si(si))
        }
        other => {
            let allowed = format!(
                "{} with its unit, as text or {{value, unit}}: {}",
                dimension.word(),
                symbols(dimension)
            );
            problems.add(at, Some(other), allowed);
            None
        }
    }
}

fn symbols(dimension: Dimension) -> String {
    let mut text = String::new();
    for unit in dimension.units() {
        if !text.is_empty() {
            text.push_str(", ");
        }
        text.push_str(unit.symbol);
    }
    text
}

/// Writes a quantity.
fn write_quantity(measured: Measured, si: f64, style: Style) -> Node {
    let (value, unit) = match style {
        Style::Exact => (si, base_symbol(measured.measure().dimension())),
        Style::System(system) => {
            let symbol = measured.measure().symbol(system);
            let factor = measured
                .measure()
                .dimension()
                .units()
                .iter()
                .find(|unit| unit.symbol == symbol)
                .map_or(1.0, crate::units::UnitDef::factor);
            (si / factor, symbol)
        }
    };
    Node::object([("value", Node::number(value)), ("unit", Node::text(unit))])
}

/// The unit of a dimension whose factor is 1.
#[expect(clippy::float_cmp, reason = "the factor of a base unit is 1 exactly")]
fn base_symbol(dimension: Dimension) -> &'static str {
    dimension
        .units()
        .iter()
        .find(|unit| unit.factor() == 1.0)
        .map_or("", |unit| unit.symbol)
}

/// A quantity of whichever dimension, in results.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity(Measured);

impl Quantity {
    /// Of any quantity.
    pub(super) fn of<Q: Measurable>(quantity: Q) -> Self {
        Self(Measured::new(quantity))
    }

    /// The same as another measure.
    pub(super) fn shown_as(self, measure: Measure) -> Self {
        Self(self.0.shown_as(measure))
    }
}

impl Wire for Quantity {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        problems.add(at, Some(node), "this is never an input");
        None
    }
    fn write(&self, style: Style) -> Node {
        match style {
            Style::System(system) => write_measured(self.0, system),
            Style::Exact => write_measured(self.0, UnitSystem::Si),
        }
    }
    fn schema(definitions: &mut Definitions) -> Node {
        definitions.named("Quantity", |_| {
            let kind = |name: &'static str| Node::object([("type", Node::text(name))]);
            let with_unit = object([("value", kind("number")), ("unit", kind("string"))], &[]);
            Node::object([
                (
                    "description",
                    Node::text("A quantity of any dimension with its unit, or a bare number."),
                ),
                ("anyOf", Node::List(vec![kind("number"), with_unit])),
            ])
        })
    }
}

/// A quantity that knows what it measures, of any dimension.
pub(super) fn write_measured(measured: Measured, system: UnitSystem) -> Node {
    macro_rules! by_dimension {
        ($($name:ident),+) => {
            match measured.measure().dimension() {
                $(Dimension::$name => measured.quantity::<$name>().map(Measurable::si),)+
                Dimension::Ratio => measured
                    .quantity::<crate::units::Ratio>()
                    .map(Measurable::si),
            }
        };
    }
    let si = by_dimension!(
        Length,
        Area,
        Volume,
        SecondMoment,
        Velocity,
        Pressure,
        Force,
        LineLoad,
        ForcePerVolume,
        Torque,
        FlexuralRigidity,
        MassDensity,
        Angle
    )
    .unwrap_or(0.0);
    if measured.measure().dimension() == Dimension::Ratio {
        Node::number(si)
    } else {
        write_quantity(measured, si, Style::System(system))
    }
}

macro_rules! quantities {
    ($($name:ident),+ $(,)?) => { $(
        impl Wire for $name {
            fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
                read_quantity(node, at, problems)
            }
            fn write(&self, style: Style) -> Node {
                write_quantity(Measured::new(*self), self.si(), style)
            }
            fn schema(definitions: &mut Definitions) -> Node {
                definitions.quantity(Self::DIMENSION)
            }
        }
    )+ };
}

quantities!(
    Length,
    Area,
    Volume,
    SecondMoment,
    Velocity,
    Pressure,
    Force,
    LineLoad,
    ForcePerVolume,
    Torque,
    FlexuralRigidity,
    MassDensity,
    Angle,
);

macro_rules! measures {
    ($( $(#[$doc:meta])* $name:ident($quantity:ident) as $measure:ident; )+) => { $(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name(pub $quantity);

        impl Wire for $name {
            fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
                read_quantity(node, at, problems).map(Self)
            }
            fn write(&self, style: Style) -> Node {
                let measured = Measured::new(self.0).shown_as(Measure::$measure);
                write_quantity(measured, self.0.si(), style)
            }
            fn schema(definitions: &mut Definitions) -> Node {
                definitions.quantity($quantity::DIMENSION)
            }
        }
    )+ };
}

measures! {
    /// A length of a section or hole, written in inches or millimetres.
    Size(Length) as SectionLength;
    /// The area of a section.
    SectionArea(Area) as SectionArea;
    /// A section modulus.
    SectionModulus(Volume) as SectionModulus;
    /// A stress of a material.
    Stress(Pressure) as Stress;
    /// A unit weight.
    UnitWeight(ForcePerVolume) as UnitWeight;
}

impl Wire for f64 {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        match node {
            Node::Number(value) if value.is_finite() => Some(*value),
            other => {
                problems.add(at, Some(other), "give a number");
                None
            }
        }
    }
    fn write(&self, _: Style) -> Node {
        Node::number(*self)
    }
    fn schema(_: &mut Definitions) -> Node {
        Node::object([("type", Node::text("number"))])
    }
}

impl Wire for usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole and between 0 and a million"
    )]
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        match node {
            Node::Number(value) if value.fract() == 0.0 && (0.0..=1e6).contains(value) => {
                Some(*value as usize)
            }
            other => {
                problems.add(at, Some(other), "give a whole number, 0 to 1000000");
                None
            }
        }
    }
    #[expect(clippy::cast_precision_loss, reason = "counts are far below 2^53")]
    fn write(&self, _: Style) -> Node {
        Node::number(*self as f64)
    }
    fn schema(_: &mut Definitions) -> Node {
        Node::object([
            ("type", Node::text("integer")),
            ("minimum", Node::Number(0.0)),
            ("maximum", Node::Number(1e6)),
        ])
    }
}

impl Wire for bool {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        match node {
            Node::Bool(value) => Some(*value),
            other => {
                problems.add(at, Some(other), "give true or false");
                None
            }
        }
    }
    fn write(&self, _: Style) -> Node {
        Node::Bool(*self)
    }
    fn schema(_: &mut Definitions) -> Node {
        Node::object([("type", Node::text("boolean"))])
    }
}

impl Wire for String {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        match node {
            Node::Text(text) => Some(text.clone().into_owned()),
            other => {
                problems.add(at, Some(other), "give text");
                None
            }
        }
    }
    fn write(&self, _: Style) -> Node {
        Node::text(self.clone())
    }
    fn schema(_: &mut Definitions) -> Node {
        Node::object([("type", Node::text("string"))])
    }
}

impl Wire for Utilization {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        problems.add(at, Some(node), "a utilization is never an input");
        None
    }
    fn write(&self, _: Style) -> Node {
        if *self == Utilization::NO_CAPACITY {
            Node::text("no capacity")
        } else {
            Node::number(self.ratio())
        }
    }
    fn schema(_: &mut Definitions) -> Node {
        Node::object([(
            "anyOf",
            Node::List(vec![
                Node::object([("type", Node::text("number"))]),
                Node::object([("const", Node::text("no capacity"))]),
            ]),
        )])
    }
}

impl<T: Wire> Wire for Option<T> {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        match node {
            Node::Null => Some(None),
            other => T::read(other, at, problems).map(Some),
        }
    }
    fn write(&self, style: Style) -> Node {
        self.as_ref().map_or(Node::Null, |value| value.write(style))
    }
    fn schema(definitions: &mut Definitions) -> Node {
        let nothing = Node::object([("type", Node::text("null"))]);
        Node::object([("anyOf", Node::List(vec![T::schema(definitions), nothing]))])
    }
    fn missing(_: &Path<'_>, _: &mut Problems) -> Option<Self> {
        Some(None)
    }
    fn is_absent(&self) -> bool {
        self.is_none()
    }
}

impl<T: Wire> Wire for Vec<T> {
    fn read(node: &Node, at: &Path<'_>, problems: &mut Problems) -> Option<Self> {
        const MOST: usize = 10_000;
        let Node::List(items) = node else {
            problems.add(at, Some(node), "give a list");
            return None;
        };
        if items.len() > MOST {
            problems.add(at, None, format!("at most {MOST} entries"));
            return None;
        }
        let mut read = Vec::with_capacity(items.len());
        for (index, item) in items.iter().enumerate() {
            read.push(T::read(item, &at.place(index), problems));
        }
        // Every entry is read before the first failure counts.
        read.into_iter().collect()
    }
    fn write(&self, style: Style) -> Node {
        Node::List(self.iter().map(|item| item.write(style)).collect())
    }
    fn schema(definitions: &mut Definitions) -> Node {
        Node::object([
            ("type", Node::text("array")),
            ("items", T::schema(definitions)),
        ])
    }
}

/// Reading one field of an object.
pub(super) trait ReadField: Wire {
    fn read_field(
        object: &Node,
        name: &str,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Self> {
        match object.get(name) {
            Some(node) => Self::read(node, &at.field(name), problems),
            None => Self::missing(&at.field(name), problems),
        }
    }
}

impl<T: Wire> ReadField for T {}
