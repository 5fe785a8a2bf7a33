//! One straight run of fence: its panel, its length, its spacing, its gates.

use crate::error::{Error, size_within, within};
use crate::source;
use crate::step::{Step, Worksheet};
use crate::units::{
    Force, LENGTH_TOL, Length, Pressure, ft, inch, lb, not_longer, not_shorter, psf, same_length,
};
use crate::wind::{Infill, Member, WallShape};

/// What stands between the posts.
///
/// ```
/// use groundline::{fence::Panel, units::{ft, inch, psf}};
/// // Boards from 2 in above ground to 8 ft, tight, 3.5 psf.
/// let panel = Panel::new(ft(8.0))?.with_clearance(inch(2.0))?.with_weight(psf(3.5))?;
/// # let _ = panel;
/// # Ok::<(), groundline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panel {
    top: Length,
    clearance: Length,
    infill: Infill,
    /// Height of the uppermost part and what fills it.
    topping: Option<(Length, Infill)>,
    weight: Pressure,
}

impl Panel {
    /// A tight panel from the ground to a height.
    ///
    /// # Errors
    /// Height outside 0.5 to 40 ft.
    pub fn new(top: Length) -> Result<Self, Error> {
        Ok(Self {
            top: within("fence height", top, ft(0.5), ft(40.0))?,
            clearance: ft(0.0),
            infill: Infill::TIGHT,
            topping: None,
            weight: psf(0.0),
        })
    }

    /// With its top at another height; gap and topping stay as they are.
    ///
    /// # Errors
    /// Height outside 0.5 to 40 ft; the gap more than 0.95 of it; the topping
    /// higher than what is left.
    pub fn with_top(self, top: Length) -> Result<Self, Error> {
        Self {
            top: Self::new(top)?.top,
            ..self
        }
        .with_clearance(self.clearance)
    }

    /// With a clear gap below it; a topping stays as it is.
    ///
    /// # Errors
    /// Outside 0 to 0.95 of the height of its top; the topping higher than what is
    /// left.
    pub fn with_clearance(self, clearance: Length) -> Result<Self, Error> {
        let clearance = size_within("clearance below", clearance, ft(0.0), self.top * 0.95)?;
        let panel = Self { clearance, ..self };
        match self.topping {
            Some((height, infill)) => panel.with_topping(height, infill),
            None => Ok(panel),
        }
    }

    /// With openings: solid area over gross area, in flat members.
    ///
    /// # Errors
    /// Outside 0.01 to 1.
    pub fn with_solidity(self, solidity: f64) -> Result<Self, Error> {
        Ok(self.with_infill(Infill::given(solidity, Member::Flat)?))
    }

    /// With an infill: pickets, mesh, lattice.
    ///
    /// ```
    /// use groundline::{fence::Panel, units::{ft, inch}, wind::Infill};
    /// let mesh = Infill::woven_mesh(inch(0.148), inch(2.0))?.covered(0.02)?;
    /// let link = Panel::new(ft(6.0))?.with_infill(mesh);
    /// assert!(link.solidity() < 0.16);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    #[must_use]
    pub fn with_infill(self, infill: Infill) -> Self {
        Self { infill, ..self }
    }

    /// With another infill in its uppermost part: a lattice top. The height of
    /// the panel stays.
    ///
    /// # Errors
    /// Height of that part outside 1 in to the height of the panel.
    ///
    /// ```
    /// use groundline::{fence::Panel, units::{ft, inch}, wind::Infill};
    /// let lattice = Infill::lattice(inch(1.5), inch(1.5))?;
    /// let panel = Panel::new(ft(8.0))?.with_topping(ft(2.0), lattice)?;
    /// assert_eq!(panel.solidity(), 0.75 + 0.25 * 0.75);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn with_topping(self, height: Length, infill: Infill) -> Result<Self, Error> {
        let height = size_within("height of the topping", height, inch(1.0), self.height())?;
        Ok(Self {
            topping: Some((height, infill)),
            ..self
        })
    }

    /// With a weight per gross area, rails included.
    ///
    /// # Errors
    /// Outside 0 to 200 psf.
    pub fn with_weight(self, weight: Pressure) -> Result<Self, Error> {
        let weight = within("panel weight", weight, psf(0.0), psf(200.0))?;
        Ok(Self { weight, ..self })
    }

    /// Height of the top above ground.
    pub const fn top(&self) -> Length {
        self.top
    }
    /// The gap below.
    pub const fn clearance(&self) -> Length {
        self.clearance
    }
    /// What fills it.
    pub const fn infill(&self) -> &Infill {
        &self.infill
    }
    /// Solid over gross area.
    pub fn solidity(&self) -> f64 {
        let below = self.infill.solidity();
        match &self.topping {
            Some((_, infill)) => below + (infill.solidity() - below) * self.topping_share(),
            None => below,
        }
    }
    /// The share of the topping in the height, never above 1.
    fn topping_share(&self) -> f64 {
        self.topping
            .map_or(0.0, |(height, _)| height.value / self.height().value)
    }
    /// Writes how its solidity comes about; nothing for a tight panel.
    pub(crate) fn write_solidity(&self, sheet: &mut Worksheet) {
        if self.solidity() >= 1.0 {
            return;
        }
        sheet.section("Solidity of the panel");
        sheet.remark("w width of members, t their pitch, f the share of openings covered.");
        self.infill.write(sheet);
        if let Some((_, infill)) = &self.topping {
            sheet.remark("The second line is that of the uppermost part.");
            infill.write(sheet);
            let below = self.infill.solidity();
            sheet.push(
                Step::computed_number(
                    "eps",
                    "of the gross area, top and rest by their share of the height",
                    "eb + (et - eb)*r",
                    self.solidity(),
                )
                .with_number("eb", below)
                .with_number("et", infill.solidity())
                .with_number("r", self.topping_share())
                .cite(&source::GEOMETRY),
            );
        }
    }

    /// A straight wall of it.
    ///
    /// # Errors
    /// Length outside 0.25 to 300 000 ft.
    pub fn wall(&self, length: Length) -> Result<WallShape, Error> {
        let wall = WallShape::new(length, self.top, self.clearance, 1.0)?.with_infill(&self.infill);
        match &self.topping {
            Some((_, infill)) => wall.with_topping(self.topping_share(), infill),
            None => Ok(wall),
        }
    }
    /// Weight per gross area.
    pub const fn weight(&self) -> Pressure {
        self.weight
    }
    /// The height it covers: that of its top less the gap below.
    pub fn height(&self) -> Length {
        self.top - self.clearance
    }
}

/// Which side of the opening the leaf hangs on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Hinges {
    /// One leaf, hung on the post nearer the start of the run.
    AtStart,
    /// One leaf, hung on the post nearer the end of the run.
    AtEnd,
    /// Two leaves that meet in the middle.
    Both,
}

impl Hinges {
    /// The same gate seen from the other end.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::AtStart => Self::AtEnd,
            Self::AtEnd => Self::AtStart,
            Self::Both => Self::Both,
        }
    }
}

/// A gate in a run. Its leaf has the height and solidity of the panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gate {
    at: Length,
    opening: Length,
    leaf_weight: Force,
    hinges: Hinges,
}

impl Gate {
    /// A gate whose opening starts at a position along the run. The opening
    /// is measured between the centres of the gate posts, so a leaf hung on
    /// its post has its weight at half the opening (a quarter for two leaves).
    ///
    /// # Errors
    /// Position outside 0 to 300 000 ft, opening outside 2 to 40 ft, leaf
    /// weight outside 0 to 10 000 lb.
    pub fn new(
        at: Length,
        opening: Length,
        leaf_weight: Force,
        hinges: Hinges,
    ) -> Result<Self, Error> {
        Ok(Self {
            at: within("gate position", at, ft(0.0), ft(300_000.0))?,
            opening: within("gate opening", opening, ft(2.0), ft(40.0))?,
            leaf_weight: within("gate leaf weight", leaf_weight, lb(0.0), lb(10_000.0))?,
            hinges,
        })
    }

    /// Start of the opening.
    pub const fn at(&self) -> Length {
        self.at
    }
    /// End of the opening.
    pub fn end(&self) -> Length {
        self.at + self.opening
    }
    /// Width of the opening.
    pub const fn opening(&self) -> Length {
        self.opening
    }
    /// Width of one leaf.
    pub fn leaf_width(&self) -> Length {
        match self.hinges {
            Hinges::Both => self.opening * 0.5,
            Hinges::AtStart | Hinges::AtEnd => self.opening,
        }
    }
    /// Weight of one leaf.
    pub const fn leaf_weight(&self) -> Force {
        self.leaf_weight
    }
    /// Where it hangs.
    pub const fn hinges(&self) -> Hinges {
        self.hinges
    }
}

/// One straight run.
#[derive(Debug, Clone, PartialEq)]
pub struct FenceRun {
    panel: Panel,
    length: Length,
    spacing: Length,
    gates: Vec<Gate>,
}

impl FenceRun {
    /// The shortest piece of fence between gates, or between a gate and an end
    /// of the run.
    fn least_piece() -> Length {
        inch(6.0)
    }

    /// A run of a length with posts no farther apart than `spacing`.
    ///
    /// # Errors
    /// Length outside 2 to 300 000 ft, spacing outside 1 to 40 ft, or more
    /// than 100 000 posts.
    pub fn new(panel: Panel, length: Length, spacing: Length) -> Result<Self, Error> {
        let length = within("run length", length, ft(2.0), ft(300_000.0))?;
        let spacing = within("post spacing", spacing, ft(1.0), ft(40.0))?;
        if (length / spacing).value > 100_000.0 {
            return Err(Error::NotApplicable {
                field: "run length",
                reason: "it would need more than 100 000 posts; split the run",
            });
        }
        Ok(Self {
            panel,
            length,
            spacing,
            gates: Vec::new(),
        })
    }

    /// The same run with posts no farther apart than another spacing.
    ///
    /// # Errors
    /// As [`FenceRun::new`].
    pub fn with_spacing(self, spacing: Length) -> Result<Self, Error> {
        let spacing = Self::new(self.panel, self.length, spacing)?.spacing;
        Ok(Self { spacing, ..self })
    }

    /// The same run with every bay longer or shorter by a factor, and so the
    /// spacing, every piece of fence and the run itself. Gates keep their
    /// openings and leaves; posts their number.
    ///
    /// # Errors
    /// As [`FenceRun::new`] and [`FenceRun::with_gate`].
    ///
    /// ```
    /// use groundline::{fence::*, units::{ft, lb}};
    /// let gate = Gate::new(ft(16.0), ft(4.0), lb(90.0), Hinges::AtStart)?;
    /// let run = FenceRun::new(Panel::new(ft(6.0))?, ft(44.0), ft(8.0))?.with_gate(gate)?;
    /// let longer = run.with_bays_by(1.25)?;
    /// assert_eq!((longer.length(), longer.spacing()), (ft(54.0), ft(10.0)));
    /// assert_eq!(longer.gates()[0].at(), ft(20.0));
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn with_bays_by(&self, factor: f64) -> Result<Self, Error> {
        let open: Length = self.gates.iter().map(Gate::opening).sum();
        let length = (self.length - open) * factor + open;
        let mut run = Self::new(self.panel, length, self.spacing * factor)?;
        let mut before = ft(0.0);
        for gate in &self.gates {
            let at = (gate.at - before) * factor + before;
            run = run.with_gate(Gate::new(at, gate.opening, gate.leaf_weight, gate.hinges)?)?;
            before += gate.opening;
        }
        Ok(run)
    }

    /// The same run of another panel.
    #[must_use]
    pub fn with_panel(self, panel: Panel) -> Self {
        Self { panel, ..self }
    }

    /// With one more gate.
    ///
    /// # Errors
    /// The gate leaves the run, overlaps another gate, or leaves a piece of
    /// fence shorter than 6 in beside it.
    pub fn with_gate(mut self, gate: Gate) -> Result<Self, Error> {
        let refuse = |reason| {
            Err(Error::NotApplicable {
                field: "gate",
                reason,
            })
        };
        self.gates.push(gate);
        self.gates.sort_by(|a, b| a.at.value.total_cmp(&b.at.value));
        let mut last = ft(0.0);
        for gate in &mut self.gates {
            if same_length(gate.at, last) {
                gate.at = last;
            }
            if same_length(self.length, gate.end()) {
                gate.opening = self.length - gate.at;
            }
            let piece = gate.at - last;
            if piece < ft(0.0) || !not_longer(gate.end(), self.length) {
                return refuse("it reaches beyond its run or into another gate");
            }
            if piece > LENGTH_TOL && !not_shorter(piece, Self::least_piece()) {
                return refuse("it leaves a piece of fence shorter than 6 in (152 mm)");
            }
            last = gate.end();
        }
        let piece = self.length - last;
        if piece > LENGTH_TOL && !not_shorter(piece, Self::least_piece()) {
            return refuse("it leaves a piece of fence shorter than 6 in (152 mm)");
        }
        Ok(self)
    }

    /// The panel.
    pub const fn panel(&self) -> &Panel {
        &self.panel
    }
    /// The length.
    pub const fn length(&self) -> Length {
        self.length
    }
    /// The greatest spacing.
    pub const fn spacing(&self) -> Length {
        self.spacing
    }
    /// The gates, from the start.
    pub fn gates(&self) -> &[Gate] {
        &self.gates
    }

    /// The same run seen from its other end.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let gates = self
            .gates
            .iter()
            .rev()
            .map(|gate| Gate {
                at: self.length - gate.end(),
                hinges: gate.hinges.mirrored(),
                ..*gate
            })
            .collect();
        Self {
            gates,
            ..self.clone()
        }
    }

    /// How far the run goes on from its start, or from its end, before it
    /// ends or a gate opens.
    pub(crate) fn uninterrupted(&self, from_start: bool) -> Length {
        let free = if from_start {
            self.gates.first().map_or(self.length, Gate::at)
        } else {
            self.gates
                .last()
                .map_or(self.length, |gate| self.length - gate.end())
        };
        if free > LENGTH_TOL { free } else { ft(0.0) }
    }
}
