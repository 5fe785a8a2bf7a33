//! The table of calculations, and the JSON Schema of their requests and answers
//! (draft 2020-12).

use super::answer::{parts, source_schema, worksheet_schema};
use super::backwards::{
    GreatestHeightRequest, GreatestSolidityRequest, GreatestSpacingRequest, GreatestWindRequest,
    SmallestHoleRequest,
};
use super::cheapest::CheapestRequest;
use super::depth::{CapacityRequest, DepthRulesRequest, LeanRequest, PostStrengthRequest};
use super::field::{AxialPullRequest, CharacteristicRequest, CompareRequest};
use super::field_proof::{PileResistanceRequest, ProofLoadRequest, ProvedShareRequest};
use super::frost::{FrostBalanceRequest, FrostDepthRequest};
use super::lateral::{LateralMethodsRequest, ResponseRequest};
use super::materials::MaterialsRequest;
use super::node::Words;
use super::plan::PlanSpec;
use super::post_check::PostCheckRequest;
use super::reading::{Path, Problems};
use super::record::{Record, list, read_record, schema_of};
use super::remedies::RemediesRequest;
use super::request::{Asked, Calculation};
use super::resistance::{PostResistanceRequest, SpreadBlockRequest};
use super::schema::{Definitions, list_of, object, text, words};
use super::sensitivity::{SensitivityRequest, UncertaintyRequest};
use super::side_pull::SidePullRequest;
use super::tables::{CatalogueRequest, RulesComparedRequest, SoilConeRequest};
use super::uplift::PullOutRequest;
use super::value::{Style, Wire};
use super::velocity::VelocityPressureRequest;
use super::wind::{FenceActionsRequest, WindPressuresRequest};
use super::{Node, VERSION};
use crate::units::UnitSystem;

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

            pub(super) fn name(&self) -> &'static str {
                match self {
                    $( Self::$variant(_) => <$request as Calculation>::CALCULATE, )+
                }
            }

            pub(super) fn read(
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
                problems.add(&top.field("calculate"), Some(&Node::text(name.to_owned())), allowed);
                None
            }

            pub(super) fn has_worksheet(&self) -> bool {
                match self {
                    $( Self::$variant(_) => <$request as Calculation>::HAS_WORKSHEET, )+
                }
            }

            pub(super) fn validate(&self, at: &Path<'_>, problems: &mut Problems) {
                match self {
                    $( Self::$variant(request) => request.validate(at, problems), )+
                }
            }

            pub(super) fn write(&self, style: Style) -> Node {
                match self {
                    $( Self::$variant(request) => request.write(style), )+
                }
            }

            pub(super) fn run(
                &self,
                asked: Asked,
                at: &Path<'_>,
                problems: &mut Problems,
            ) -> Option<Vec<(Words, Node)>> {
                match self {
                    $( Self::$variant(request) => {
                        let done = Calculation::run(&**request, asked, at, problems)?;
                        Some(parts(&done, asked.system))
                    } )+
                }
            }

            /// Name and schema of every input.
            fn input_schemas(definitions: &mut Definitions) -> Vec<(&'static str, Node)> {
                vec![$((
                    <$request as Calculation>::CALCULATE,
                    definitions.named(<$request as Record>::NAME, |definitions| {
                        schema_of::<$request>(None, definitions)
                    }),
                )),+]
            }

            /// Name and schema of every result.
            fn result_schemas(definitions: &mut Definitions) -> Vec<(&'static str, Node)> {
                vec![$((
                    <$request as Calculation>::CALCULATE,
                    <<$request as Calculation>::Result as Wire>::schema(definitions),
                )),+]
            }
        }
    };
}

/// Names that must be there.
fn required(names: &[&'static str]) -> Node {
    Node::List(names.iter().map(|name| Node::text(*name)).collect())
}

fn version() -> Node {
    Node::object([("const", Node::Number(f64::from(VERSION)))])
}

fn id() -> Node {
    let kinds = ["string", "number", "null"].map(Node::text);
    Node::object([("type", Node::List(kinds.to_vec()))])
}

/// A schema that says for each calculation what one field holds.
fn by_calculation(field: &'static str, kinds: Vec<(&'static str, Node)>) -> Node {
    let rule = |(name, schema): (&'static str, Node)| {
        let named = Node::object([("const", Node::text(name))]);
        let when = Node::object([
            ("properties", Node::object([("calculate", named)])),
            ("required", required(&["calculate"])),
        ]);
        let holds = Node::object([("properties", Node::object([(field, schema)]))]);
        Node::object([("if", when), ("then", holds)])
    };
    Node::List(kinds.into_iter().map(rule).collect())
}

fn document(title: &str, fields: Vec<(Words, Node)>, definitions: Definitions) -> Node {
    let mut all = vec![
        (
            "$schema".into(),
            Node::text("https://json-schema.org/draft/2020-12/schema"),
        ),
        (
            "title".into(),
            Node::text(format!("{title}, version {VERSION}")),
        ),
        ("type".into(), Node::text("object")),
    ];
    all.extend(fields);
    all.push(("$defs".into(), definitions.into_node()));
    Node::Object(all)
}

/// The JSON Schema (draft 2020-12) of requests.
///
/// It holds names, types and what must be there; units, ranges and what goes
/// together are for the reader to say.
pub fn request_schema() -> Node {
    let mut definitions = Definitions::default();
    let inputs = Input::input_schemas(&mut definitions);
    let fields = vec![
        (
            "properties".into(),
            Node::object([
                ("version", version()),
                ("id", id()),
                ("calculate", words(Input::NAMES)),
                ("units", Option::<UnitSystem>::schema(&mut definitions)),
                ("worksheet", Option::<bool>::schema(&mut definitions)),
                ("input", Node::object([("type", Node::text("object"))])),
            ]),
        ),
        (
            "required".into(),
            required(&["version", "calculate", "input"]),
        ),
        ("additionalProperties".into(), Node::Bool(false)),
        ("allOf".into(), by_calculation("input", inputs)),
    ];
    document("groundline request", fields, definitions)
}

/// The JSON Schema (draft 2020-12) of answers: a result, or errors.
pub fn answer_schema() -> Node {
    let mut definitions = Definitions::default();
    let results = Input::result_schemas(&mut definitions);
    let error = [("path", text()), ("value", text()), ("allowed", text())];
    let error = object(error, &["value"]);
    let fields = vec![
        (
            "properties".into(),
            Node::object([
                ("version", version()),
                ("id", id()),
                ("calculate", words(Input::NAMES)),
                ("cautions", list_of(text())),
                ("sources", list_of(source_schema(&mut definitions))),
                ("worksheets", list_of(worksheet_schema(&mut definitions))),
                ("errors", list_of(error)),
            ]),
        ),
        (
            "oneOf".into(),
            Node::List(vec![
                Node::object([(
                    "required",
                    required(&["version", "calculate", "result", "cautions", "sources"]),
                )]),
                Node::object([("required", required(&["version", "errors"]))]),
            ]),
        ),
        ("allOf".into(), by_calculation("result", results)),
    ];
    document("groundline answer", fields, definitions)
}

calculations! {
    /// The velocity pressure of a site at a height.
    VelocityPressure(VelocityPressureRequest),
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
    /// Design resistance of a post in a limit-state format.
    PostResistance(PostResistanceRequest),
    /// A block on its base.
    SpreadBlock(SpreadBlockRequest),
    /// How far the top of a post leans.
    Lean(LeanRequest),
    /// Rules of thumb for the depth.
    DepthRules(DepthRulesRequest),
    /// Rules of thumb against the code formula, over a fence.
    RulesCompared(RulesComparedRequest),
    /// Posts as sold.
    Catalogue(CatalogueRequest),
    /// The soil a collar takes with it.
    SoilCone(SoilConeRequest),
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
    /// Share of posts proved by the proof loads that posts stood.
    ProvedShare(ProvedShareRequest),
    /// Characteristic axial resistance of piles.
    PileResistance(PileResistanceRequest),
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
    /// Single changes that make a failing post or fence pass.
    Remedies(RemediesRequest),
    /// How the governing utilization moves with each input.
    Sensitivity(SensitivityRequest),
    /// How often the utilization is above 1 where inputs are at random.
    Uncertainty(UncertaintyRequest),
}
