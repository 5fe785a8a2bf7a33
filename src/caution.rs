//! What every result must say beside its numbers.

use core::fmt;

macro_rules! cautions {
    ($( $(#[$doc:meta])* $name:ident = $text:literal; )+) => {
        /// One caution.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        pub enum Caution { $( $(#[$doc])* $name ),+ }

        impl Caution {
            /// Every caution, in the order they are printed.
            pub const ALL: &'static [Caution] = &[ $( Caution::$name ),+ ];

            /// The caution in full.
            pub const fn text(self) -> &'static str {
                match self { $( Caution::$name => $text ),+ }
            }
        }
    };
}

cautions! {
    /// On every result.
    NoSubstitute = "These numbers are no substitute for the locally adopted code and a licensed \
        engineer. Have them reviewed before anyone builds on them.";
    /// Before any hole is dug.
    BuriedUtilities = "Have buried utilities located and marked before digging (811 in the United \
        States).";
    /// Where the ground freezes.
    Frost = "Frost is not checked here. Where the ground freezes, the local frost depth governs \
        the bottom of the footing, and frozen soil gripping its side can lift it.";
    /// Frost was checked.
    FrostChecked = "Frost was checked for the depth and grip given: the local frost depth of the code \
        governs, the grip of wet ground varies from winter to winter, and water in the hole is not \
        taken off the weight.";
    /// Ground that is not level.
    Slope = "The pole formulas assume level ground. On or near a slope, or beside a cut, the soil \
        on the low side holds less.";
    /// Soil against the fence.
    RetainedSoil = "A fence that holds back soil carries earth pressure that is not included \
        here; it is a retaining wall.";
    /// Barriers.
    Barrier = "A pool barrier, guard or traffic barrier has loads and rules of its own that are \
        not checked here.";
    /// Concrete.
    Curing = "Let concrete cure and brace the posts before the fence is loaded by wind.";
    /// Loaded before it has set.
    SetTooSoon = "The wind comes on the fence sooner than what the posts are set in is said to need: \
        brace the posts or wait.";
    /// A check asked for and not made.
    NotAllChecked = "A check that was asked for could not be made and counts for nothing here; its \
        reason stands in the working.";
    /// No weight.
    NoWeight = "No weight of panels was given: vertical bearing was checked for none of it.";
    /// Weight with bending without the ground.
    FixedFoot = "Weight with bending took the post as fixed in the ground. Soft ground or a shallow \
        hole lets its weight tip it more: ask for lean too, which tells how the ground turns.";
    /// Round timber.
    Taper = "Round timber was taken as thick at its top as at grade. A tapered pole leans more and \
        buckles sooner.";
    /// Presumptive soil.
    PresumptiveSoil = "Presumptive soil values suppose firm, natural, undisturbed ground of the \
        class named. Mud, organic soil, peat, soft clay and loose fill have no presumptive value.";
    /// Doubled lateral bearing.
    IsolatedPole = "Lateral bearing was doubled as for an isolated pole (IBC 1806.3.4): allowed \
        only where 1/2 in (13 mm) of movement at the ground does no harm.";
    /// One-third increase.
    OneThirdIncrease = "Soil pressures were raised by one third with the alternative allowable \
        stress combinations; the adopted code must allow it (the section varies by jurisdiction).";
    /// Deeper than the pole formula reads pressure.
    BeyondTwelveFeet = "A depth beyond 12 ft (3.66 m) lies outside what the pole formula was \
        meant for; the pressure is not read deeper than its limit. Use a pier analysis.";
    /// Rigid paving counted on.
    RigidPaving = "Restraint at grade was counted on: rigid paving must bear against the post on \
        every side and stay there for its life.";
    /// Backfill.
    Backfill = "A post without a poured footing counts only if its hole is backfilled as \
        IBC 1807.3.3 says; loose spoil tamped by foot is not that.";
    /// Timber in the ground ([`crate::source::AWPA_UC4B`]).
    TimberTreatment = "Timber in the ground must be treated for it (AWPA U1 Use Category 4B, IBC \
        1807.3.1), cut ends too. Some seismic design categories in California restrict embedded \
        wood posts.";
    /// A post in a vinyl sleeve.
    Sleeve = "A vinyl sleeve adds no strength; it creeps, and turns brittle in the cold. The insert \
        must run the full depth in the ground and through the zone of greatest moment, without a \
        splice.";
    /// Posts closer than their holes can use the soil
    /// ([`crate::source::ASABE_SPACING`]).
    CloseSpacing = "Posts stand closer than three times the footing (4.5 times the post): the soil \
        between them is counted twice (ASABE EP486).";
    /// Posts of a row closer than five widths ([`crate::source::UFC_SPACING`]).
    RowSpacing = "Posts of a row across the load stand closer than five times the width that bears: \
        the soil before one is used by the next too (UFC 3-220-20 6-6.5).";
    /// Presumptive friction against frost ([`crate::source::IBC_FRICTION`]).
    DeepFoundationFriction = "Presumptive skin friction was counted against frost. Its clause is of \
        deep foundations in compression (IBC 1810.3.3.1.4): have an engineer accept it, or test it.";
    /// Tall, slender fences: said above 12 ft, a height chosen here, no source.
    Flexible = "The gust factor 0.85 of ASCE 7, cs cd = 1 of EN 1991-1-4 (below 15 m) and Cdyn = 1 of \
        AS/NZS 1170.2 suppose a stiff structure. A tall fence on slender posts may not be one.";
    /// Openings that may close.
    OpenFence = "Openings of the fence were counted on. Vines, leaves, slats, screens, banners, snow \
        or ice close them, and it then carries the wind of a solid one.";
    /// Members that were left out.
    PostsInTheWind = "Wind on posts and rails of an open fence is included only as far as their area \
        was put into its solidity.";
    /// Gates.
    LeafTorsion = "A gate leaf in the wind also twists the post it hangs on; that is not checked here.";
    /// A post that bears against backfill.
    BackfillRing = "The backfill is taken as what gives first; if the ground round it is weaker, \
        ask the ground too, with the width of the hole.";
    /// Foam.
    Foam = "Expanding foam in the ground has no independent strength data: nothing is credited to it \
        but what a test on site gave.";
    /// Inputs at random.
    NoReliability = "A share of random samples is no reliability analysis to a code: distributions are \
        the user's, inputs are taken as independent, each alike for the whole fence; errors of the \
        formulas, of workmanship and of the ground from post to post are not in it, and allowable \
        stresses and code wind already hold their margins.";
    /// Inputs varied one at a time.
    OneAtATime = "Each input was varied alone, near its value in the plan: what holds there need not hold \
        farther off, nor for several inputs together.";
    /// Values of field tests.
    FieldTests = "A test is of its own post, ground and day: wet seasons, frost, sustained load and \
        decay are not in it, and the ground a few posts on may differ.";
    /// Pulls stopped at their greatest load.
    StoppedPulls = "Some pulls were stopped at their greatest load, so their values are lower bounds: \
        the mean is a lower bound too, and the true spread may be greater. Pull until the load falls.";
    /// Wood in concrete.
    Shrinkage = "Wood shrinks and a gap opens between post and concrete: notch or key the foot of the \
        post, and count bond as an upper estimate.";
    /// Several methods beside each other.
    MethodsDiffer = "Limit-state methods differ by up to two either way; a factor belongs to its \
        method. None of them looks at movement.";
    /// Factors of the user.
    OwnFactors = "Factors on wind and dead load were given by the user in place of a code's.";
    /// Shelter counted on ([`crate::source::EN1991_7_4_2`]).
    Shelter = "Shelter by something upwind was counted on: it must stand there for the life of the \
        fence, and the wind must not come past it.";
    /// A table left.
    BeyondTable = "A proportion of the fence lies beyond the end of its table; the value at the end \
        was held. Look at the working.";
    /// Pressure as given.
    GivenPressure = "The wind pressure was given by the user: coefficients, free ends and corners, \
        and its limit state are the user's.";
    /// No vertical bearing value.
    NoVerticalBearing = "Vertical bearing was not checked: no allowable foundation pressure was \
        given.";
    /// Values from memory.
    FromMemory = "A line marked 'from memory' uses a value not confirmed against any page; check \
        it against the printed standard.";
}

impl Caution {
    const fn bit(self) -> u64 {
        1 << self as u32
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

/// The cautions that apply to a result. [`Caution::NoSubstitute`] is always
/// among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cautions(u64);

impl Default for Cautions {
    fn default() -> Self {
        Self(Caution::NoSubstitute.bit())
    }
}

impl Cautions {
    /// These and one more.
    #[must_use]
    pub const fn with(self, caution: Caution) -> Self {
        Self(self.0 | caution.bit())
    }

    /// These and one more if `applies`.
    #[must_use]
    pub const fn with_if(self, applies: bool, caution: Caution) -> Self {
        if applies { self.with(caution) } else { self }
    }

    /// These with one in place of another that is among them.
    #[must_use]
    pub(crate) const fn replacing(self, old: Caution, new: Caution) -> Self {
        if self.contains(old) {
            Self(self.0 & !old.bit() | new.bit())
        } else {
            self
        }
    }

    /// The union.
    #[must_use]
    pub const fn and(self, others: Cautions) -> Self {
        Self(self.0 | others.0)
    }

    /// Is this one among them?
    pub const fn contains(self, caution: Caution) -> bool {
        self.0 & caution.bit() != 0
    }

    /// All of them, in printing order.
    pub fn iter(self) -> impl Iterator<Item = Caution> {
        Caution::ALL
            .iter()
            .copied()
            .filter(move |caution| self.contains(*caution))
    }
}
