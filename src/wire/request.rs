//! The request, the answer, and the table of calculations.

use super::reading::{Path, Problem, Problems};
use super::record::{Record, list, read_record, schema_of};
use super::schema::Definitions;
use super::value::{ReadField, Style, Wire, write_measured};
use super::{Node, VERSION};
use crate::caution::Cautions;
use crate::source::Citation;
use crate::step::{Origin, Step, Worksheet};
use crate::units::UnitSystem;
use core::fmt;

/// What a calculation is asked beside its input.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asked {
    /// Units of the answer.
    pub(super) system: UnitSystem,
    /// Is its worksheet wanted?
    pub(super) worksheet: bool,
}

/// What a calculation gives.
#[derive(Debug)]
pub(super) struct Done<R> {
    pub(super) result: R,
    pub(super) cautions: Cautions,
    pub(super) sources: Vec<&'static Citation>,
    pub(super) worksheets: Vec<Worksheet>,
}

impl<R> Done<R> {
    /// A result with its cautions and its sources.
    pub(super) fn new(
        result: R,
        cautions: Cautions,
        sources: impl IntoIterator<Item = &'static Citation>,
    ) -> Self {
        let mut listed: Vec<&'static Citation> = Vec::new();
        for source in sources {
            if !listed.contains(&source) {
                listed.push(source);
            }
        }
        Self {
            result,
            cautions,
            sources: listed,
            worksheets: Vec::new(),
        }
    }

    /// With a worksheet.
    pub(super) fn with_worksheet(mut self, sheet: Worksheet) -> Self {
        self.worksheets.push(sheet);
        self
    }
}

/// A calculation that can be asked for by name.
pub(super) trait Calculation: Record {
    /// The name.
    const CALCULATE: &'static str;
    /// What it gives.
    type Result: Wire;

    /// Everything that can be refused before computing.
    fn validate(&self, at: &Path<'_>, problems: &mut Problems);

    /// Computes; gives nothing where there was a problem.
    fn run(
        &self,
        asked: Asked,
        at: &Path<'_>,
        problems: &mut Problems,
    ) -> Option<Done<Self::Result>>;
}

/// One request: which calculation, of what, in which units the answer.
///
/// It is read from any self-describing format by serde. Reading validates:
/// what is a `Request` can be computed, unless parts of it do not go together.
/// To have every problem as data, read a [`Node`] and call [`Request::read`].
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    id: Option<Node>,
    system: UnitSystem,
    worksheet: bool,
    input: Input,
}

/// An answer: a result, or what is wrong with the request.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    node: Node,
    problems: Option<Problems>,
}

const FIELDS: [&str; 6] = ["version", "id", "calculate", "units", "worksheet", "input"];

impl Request {
    /// Reads a request.
    ///
    /// # Errors
    /// Everything that is wrong with it, not the first thing only.
    pub fn read(node: &Node) -> Result<Self, Problems> {
        let mut problems = Problems::new(UnitSystem::Us);
        let top = Path::TOP;
        let Node::Object(fields) = node else {
            problems.add(
                &top,
                Some(node),
                format!("give an object: {}", list(&FIELDS)),
            );
            return Err(problems);
        };
        for (index, (name, _)) in fields.iter().enumerate() {
            if !FIELDS.contains(&name.as_str()) {
                let allowed = format!("there is no such field; known are {}", list(&FIELDS));
                problems.add(&top.field(name), None, allowed);
            } else if fields[..index].iter().any(|(earlier, _)| earlier == name) {
                problems.add(&top.field(name), None, "this field stands twice");
            }
        }
        let system = Option::<UnitSystem>::read_field(node, "units", &top, &mut problems);
        let system = system.flatten().unwrap_or_default();
        problems.set_system(system);
        match node.get("version") {
            Some(Node::Number(version)) if version.total_cmp(&f64::from(VERSION)).is_eq() => {}
            Some(other) => {
                let allowed = format!("this library answers version {VERSION}");
                problems.add(&top.field("version"), Some(other), allowed);
            }
            None => problems.add(
                &top.field("version"),
                None,
                format!("this field is missing; the version is {VERSION}"),
            ),
        }
        let id = match node.get("id") {
            None | Some(Node::Null) => None,
            Some(id @ (Node::Text(_) | Node::Number(_))) => Some(id.clone()),
            Some(other) => {
                problems.add(&top.field("id"), Some(other), "give text or a number");
                None
            }
        };
        let worksheet = Option::<bool>::read_field(node, "worksheet", &top, &mut problems);
        let worksheet = worksheet.flatten().unwrap_or(false);
        let name = match node.get("calculate") {
            Some(Node::Text(name)) => Some(name.as_str()),
            other => {
                let allowed = format!("one of {}", list(Input::NAMES));
                problems.add(&top.field("calculate"), other, allowed);
                None
            }
        };
        let place = top.field("input");
        let empty = Node::Object(Vec::new());
        let given = node.get("input").unwrap_or(&empty);
        let input = name.and_then(|name| Input::read(name, given, &place, &mut problems));
        if let Some(input) = &input {
            input.validate(&place, &mut problems);
        }
        match input {
            Some(input) if problems.is_empty() => Ok(Self {
                id,
                system,
                worksheet,
                input,
            }),
            _ => Err(problems),
        }
    }

    /// The request as data, every quantity in SI base units so that it is read
    /// again to the same bits.
    pub fn write(&self) -> Node {
        let mut fields = vec![("version".to_owned(), Node::Number(f64::from(VERSION)))];
        if let Some(id) = &self.id {
            fields.push(("id".to_owned(), id.clone()));
        }
        fields.push(("calculate".to_owned(), Node::text(self.input.name())));
        fields.push(("units".to_owned(), self.system.write(Style::Exact)));
        if self.worksheet {
            fields.push(("worksheet".to_owned(), Node::Bool(true)));
        }
        fields.push(("input".to_owned(), self.input.write(Style::Exact)));
        Node::Object(fields)
    }

    /// The name of its calculation.
    pub fn calculate(&self) -> &'static str {
        self.input.name()
    }

    /// What is to be calculated.
    pub const fn input(&self) -> &Input {
        &self.input
    }

    /// The units of the answer.
    pub const fn system(&self) -> UnitSystem {
        self.system
    }

    /// Computes it.
    pub fn answer(&self) -> Answer {
        let mut problems = Problems::new(self.system);
        let asked = Asked {
            system: self.system,
            worksheet: self.worksheet,
        };
        let place = Path::TOP;
        let computed = self.input.run(asked, &place.field("input"), &mut problems);
        match computed {
            Some(mut parts) if problems.is_empty() => {
                let mut fields = head(self.id.as_ref(), Some(self.input.name()));
                fields.append(&mut parts);
                Answer {
                    node: Node::Object(fields),
                    problems: None,
                }
            }
            _ => {
                if problems.is_empty() {
                    problems.add(&place, None, "it could not be computed");
                }
                Answer::refusing(self.id.as_ref(), Some(self.input.name()), problems)
            }
        }
    }
}

fn head(id: Option<&Node>, name: Option<&str>) -> Vec<(String, Node)> {
    let mut fields = vec![("version".to_owned(), Node::Number(f64::from(VERSION)))];
    if let Some(id) = id {
        fields.push(("id".to_owned(), id.clone()));
    }
    if let Some(name) = name {
        fields.push(("calculate".to_owned(), Node::text(name)));
    }
    fields
}

impl Answer {
    /// The answer to a request as data: never a panic, never nothing.
    pub fn to(node: &Node) -> Self {
        match Request::read(node) {
            Ok(request) => request.answer(),
            Err(problems) => {
                let id = node
                    .get("id")
                    .filter(|id| matches!(id, Node::Text(_) | Node::Number(_)));
                let name = node.get("calculate").and_then(Node::as_text);
                let name = name.filter(|name| Input::NAMES.contains(name));
                Self::refusing(id, name, problems)
            }
        }
    }

    /// The answer to what is not even data.
    pub fn to_broken(why: impl fmt::Display) -> Self {
        Self::refusing(None, None, Problems::of_whole(why.to_string()))
    }

    fn refusing(id: Option<&Node>, name: Option<&str>, problems: Problems) -> Self {
        let mut fields = head(id, name);
        fields.push(("errors".to_owned(), problems.write()));
        Self {
            node: Node::Object(fields),
            problems: Some(problems),
        }
    }

    /// As data.
    pub const fn node(&self) -> &Node {
        &self.node
    }

    /// The result, if there is one.
    pub fn result(&self) -> Option<&Node> {
        self.node.get("result")
    }

    /// What is wrong with the request, if anything is.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.problems.iter().flat_map(Problems::iter)
    }
}

/// The parts of an answer that a calculation gave.
pub(super) fn parts<R: Wire>(done: &Done<R>, system: UnitSystem) -> Vec<(String, Node)> {
    let cautions = done.cautions.iter().map(|c| Node::text(c.text())).collect();
    let sources = done.sources.iter().map(|source| citation(source)).collect();
    let mut parts = vec![
        (
            "result".to_owned(),
            done.result.write(Style::System(system)),
        ),
        ("cautions".to_owned(), Node::List(cautions)),
        ("sources".to_owned(), Node::List(sources)),
    ];
    if !done.worksheets.is_empty() {
        let sheets = done.worksheets.iter().map(worksheet).collect();
        parts.push(("worksheets".to_owned(), Node::List(sheets)));
    }
    parts
}

fn citation(source: &Citation) -> Node {
    Node::object([
        ("id", Node::text(source.id)),
        ("document", Node::text(source.document)),
        ("clause", Node::text(source.clause)),
        ("mark", Node::text(source.mark.name())),
    ])
}

fn worksheet(sheet: &Worksheet) -> Node {
    let line = |step: &Step| {
        let terms = step
            .terms
            .iter()
            .map(|term| {
                (
                    term.symbol.to_owned(),
                    write_measured(term.value, sheet.system),
                )
            })
            .collect();
        let mut fields = vec![
            ("symbol".to_owned(), Node::text(step.symbol)),
            ("meaning".to_owned(), Node::text(step.meaning)),
            (
                "origin".to_owned(),
                Node::text(match step.origin {
                    Origin::Given => "given",
                    Origin::Computed => "computed",
                    Origin::Root => "root",
                }),
            ),
        ];
        if !step.formula.is_empty() {
            fields.push(("formula".to_owned(), Node::text(&*step.formula)));
            fields.push(("terms".to_owned(), Node::Object(terms)));
        }
        fields.push((
            "result".to_owned(),
            write_measured(step.result, sheet.system),
        ));
        if let Some(source) = step.citation {
            fields.push(("source".to_owned(), citation(source)));
        }
        Node::Object(fields)
    };
    let section = |section: &crate::step::Section| {
        let remarks = section.remarks.iter().map(|text| Node::text(&**text));
        Node::object([
            ("title", Node::text(section.title)),
            ("remarks", Node::List(remarks.collect())),
            (
                "steps",
                Node::List(section.steps.iter().map(line).collect()),
            ),
        ])
    };
    Node::object([
        ("title", Node::text(&*sheet.title)),
        (
            "sections",
            Node::List(sheet.sections.iter().map(section).collect()),
        ),
    ])
}

/// The table of calculations: name, input, and that each is reached.
macro_rules! calculations {
    ($( $(#[doc = $doc:literal])+ $variant:ident($request:ty), )+) => {
        /// What can be calculated, each with its input.
        #[derive(Debug, Clone, PartialEq)]
        #[non_exhaustive]
        pub enum Input {
            $( $(#[doc = $doc])+ $variant(Box<$request>), )+
        }

        impl Input {
            /// Every name.
            pub const NAMES: &'static [&'static str] =
                &[$(<$request as Calculation>::CALCULATE),+];

            fn name(&self) -> &'static str {
                match self {
                    $( Self::$variant(_) => <$request as Calculation>::CALCULATE, )+
                }
            }

            fn read(
                name: &str,
                node: &Node,
                at: &Path<'_>,
                problems: &mut Problems,
            ) -> Option<Self> {
                $( if name == <$request as Calculation>::CALCULATE {
                    return read_record::<$request>(node, false, at, problems)
                        .map(|request| Self::$variant(Box::new(request)));
                } )+
                let allowed = format!("one of {}", list(Self::NAMES));
                let top = Path::TOP;
                problems.add(&top.field("calculate"), Some(&Node::text(name)), allowed);
                None
            }

            fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
                match self {
                    $( Self::$variant(request) => request.validate(at, problems), )+
                }
            }

            fn write(&self, style: Style) -> Node {
                match self {
                    $( Self::$variant(request) => request.write(style), )+
                }
            }

            fn run(
                &self,
                asked: Asked,
                at: &Path<'_>,
                problems: &mut Problems,
            ) -> Option<Vec<(String, Node)>> {
                match self {
                    $( Self::$variant(request) => {
                        let done = Calculation::run(&**request, asked, at, problems)?;
                        Some(parts(&done, asked.system))
                    } )+
                }
            }

            /// The schemas of requests and of answers, one a calculation.
            fn schemas(definitions: &mut Definitions) -> (Vec<Node>, Vec<Node>) {
                (
                    vec![$( envelope::<$request>(definitions) ),+],
                    vec![$( answered::<$request>(definitions) ),+],
                )
            }
        }
    };
}

fn envelope<C: Calculation>(definitions: &mut Definitions) -> Node {
    let input = definitions.named(C::NAME, |definitions| schema_of::<C>(None, definitions));
    let properties = Node::object([
        (
            "version",
            Node::object([("const", Node::Number(f64::from(VERSION)))]),
        ),
        (
            "id",
            Node::object([(
                "type",
                Node::List(vec![Node::text("string"), Node::text("number")]),
            )]),
        ),
        (
            "calculate",
            Node::object([("const", Node::text(C::CALCULATE))]),
        ),
        ("units", UnitSystem::schema(definitions)),
        ("worksheet", bool::schema(definitions)),
        ("input", input),
    ]);
    Node::object([
        ("type", Node::text("object")),
        ("description", Node::text(C::ABOUT.trim())),
        ("properties", properties),
        (
            "required",
            Node::List(["version", "calculate", "input"].map(Node::text).to_vec()),
        ),
        ("additionalProperties", Node::Bool(false)),
    ])
}

fn answered<C: Calculation>(definitions: &mut Definitions) -> Node {
    let result = <C::Result as Wire>::schema(definitions);
    Node::object([
        ("type", Node::text("object")),
        (
            "properties",
            Node::object([
                (
                    "calculate",
                    Node::object([("const", Node::text(C::CALCULATE))]),
                ),
                ("result", result),
            ]),
        ),
        (
            "required",
            Node::List(
                ["version", "calculate", "result", "cautions", "sources"]
                    .map(Node::text)
                    .to_vec(),
            ),
        ),
    ])
}

/// The JSON Schema (draft 2020-12) of requests.
pub fn request_schema() -> Node {
    let mut definitions = Definitions::default();
    let (requests, _) = Input::schemas(&mut definitions);
    schema("groundline request", requests, definitions)
}

/// The JSON Schema (draft 2020-12) of answers that hold a result.
pub fn answer_schema() -> Node {
    let mut definitions = Definitions::default();
    let (_, answers) = Input::schemas(&mut definitions);
    schema("groundline answer", answers, definitions)
}

fn schema(title: &str, kinds: Vec<Node>, definitions: Definitions) -> Node {
    Node::object([
        (
            "$schema",
            Node::text("https://json-schema.org/draft/2020-12/schema"),
        ),
        ("title", Node::Text(format!("{title}, version {VERSION}"))),
        ("oneOf", Node::List(kinds)),
        ("$defs", definitions.into_node()),
    ])
}

mod serde_impls {
    use super::{Answer, Node, Request};
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    impl<'de> Deserialize<'de> for Request {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            Self::read(&Node::deserialize(deserializer)?).map_err(D::Error::custom)
        }
    }

    impl Serialize for Request {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            self.write().serialize(serializer)
        }
    }

    impl Serialize for Answer {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            self.node().serialize(serializer)
        }
    }
}

use super::backwards::{
    GreatestHeightRequest, GreatestSolidityRequest, GreatestSpacingRequest, GreatestWindRequest,
    SmallestHoleRequest,
};
use super::cheapest::CheapestRequest;
use super::depth::{CapacityRequest, DepthRulesRequest, LeanRequest, PostStrengthRequest};
use super::field::{
    AxialPullRequest, CharacteristicRequest, CompareRequest, ProofLoadRequest, SidePullRequest,
};
use super::lateral::{LateralMethodsRequest, ResponseRequest};
use super::plan::PlanSpec;
use super::post_check::PostCheckRequest;
use super::uplift::{FrostBalanceRequest, FrostDepthRequest, MaterialsRequest, PullOutRequest};
use super::wind::{FenceActionsRequest, WindPressuresRequest};

calculations! {
    /// The wind pressure along every run.
    WindPressures(WindPressuresRequest),
    /// Shear, moment and weight at grade of every post.
    FenceActions(FenceActionsRequest),
    /// One post for actions at grade.
    PostCheck(PostCheckRequest),
    /// What a post set to a depth carries.
    Capacity(CapacityRequest),
    /// What a post resists.
    PostStrength(PostStrengthRequest),
    /// How far the top of a post leans.
    Lean(LeanRequest),
    /// Rules of thumb for the depth.
    DepthRules(DepthRulesRequest),
    /// Every ultimate method of the ground, side by side.
    LateralMethods(LateralMethodsRequest),
    /// How far a post in the ground moves, leans and bends.
    Response(ResponseRequest),
    /// Every way a post may be pulled out.
    PullOut(PullOutRequest),
    /// How deep frost goes.
    FrostDepth(FrostDepthRequest),
    /// What frost lifts with against what holds.
    FrostBalance(FrostBalanceRequest),
    /// What to buy and carry for a post.
    Materials(MaterialsRequest),
    /// What a post pulled straight up proves.
    AxialPull(AxialPullRequest),
    /// What a post pulled sideways says about the ground.
    SidePull(SidePullRequest),
    /// A value design may use, from tests alike.
    Characteristic(CharacteristicRequest),
    /// Two settings compared.
    Compare(CompareRequest),
    /// Does a post carry a proof load?
    ProofLoad(ProofLoadRequest),
    /// Every post of a fence.
    Schedule(PlanSpec),
    /// The wind that posts are good for.
    GreatestWind(GreatestWindRequest),
    /// The greatest spacing of posts.
    GreatestSpacing(GreatestSpacingRequest),
    /// The greatest height of the panel.
    GreatestHeight(GreatestHeightRequest),
    /// The greatest solidity of the infill.
    GreatestSolidity(GreatestSolidityRequest),
    /// The smallest hole for a limited depth.
    SmallestHole(SmallestHoleRequest),
    /// The cheapest of several plans that hold.
    Cheapest(CheapestRequest),
}
