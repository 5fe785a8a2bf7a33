//! The governing post and its hole, to scale, with what the ground is asked
//! for: the lateral bearing of the depth formula, and the reaction of the rigid
//! post that the moment in the post is computed with.

use super::{INK, area, document, label, line, patterns, rectangle, strokes};
use groundline::combination::CombinesTo;
use groundline::embedment::Equation;
use groundline::foundation::Restraint;
use groundline::limit_state::AllowableStress;
use groundline::plan::ScheduledPost;
use groundline::units::{
    Force, Length, Measurable, Measure, Pressure, Torque, UnitSystem, pa, show, show_as,
};
use svg::Node;
use svg::node::element::{Element, Path};

/// What is drawn of a post.
#[derive(Debug, Clone, Copy)]
pub(crate) struct HolePicture {
    pub(crate) number: usize,
    top: Length,
    face: Length,
    width: Length,
    concrete: bool,
    /// Across the hole that something else than concrete fills.
    backfilled: Option<Length>,
    /// How deep the ground freezes, if it was asked.
    frost: Option<Length>,
    paved: bool,
    depth: Length,
    required: Length,
    shear: Force,
    moment: Torque,
    height: Length,
    discounted: Length,
    /// Depth below the discounted top at which bearing is read, and there.
    reading: Length,
    needed: Pressure,
    allowed: Pressure,
    reaction: Reaction,
    greatest: Torque,
    greatest_at: Length,
}

/// The reaction of the ground on a rigid post, stiffness growing with depth.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reaction {
    shear: f64,
    moment: f64,
    length: f64,
    paved: bool,
}

impl Reaction {
    /// For shear and moment at the top of the ground that counts, over an
    /// embedment; `paved` where rigid paving holds the post at grade.
    pub(crate) const fn new(shear: f64, moment: f64, length: f64, paved: bool) -> Self {
        Self {
            shear,
            moment,
            length,
            paved,
        }
    }

    /// Force per depth at a share of the embedment, positive against the wind.
    pub(crate) fn at(&self, share: f64) -> f64 {
        let m = self.moment / self.length;
        if self.paved {
            // Turning about grade, p grows with the square of the depth, and
            // balances M about grade.
            return 4.0 * m * share * share / self.length;
        }
        let k = 8.0 * self.shear + 12.0 * m;
        // Less the slope of V(s) = (1 - s)(V + V s - K s²).
        (2.0 * (self.shear + k) * share - 3.0 * k * share * share) / self.length
    }
}

impl HolePicture {
    /// Of a post whose fence is so high, in ground that freezes so deep.
    pub(crate) fn of<L: CombinesTo<AllowableStress>>(
        post: &ScheduledPost<L>,
        top: Length,
        frost: Option<Length>,
    ) -> Option<Self> {
        let check = &post.check;
        let design = check.design();
        let (formula, foundation) = (design.formula(), design.foundation());
        let counted = match check.planned {
            Some(planned) => planned,
            None => formula
                .check(check.actions(), check.required.depth())
                .ok()?,
        };
        let discounted = design.ground().discounted_top();
        let below = counted.depth() - discounted;
        let reading = match formula.equation() {
            Equation::Constrained => below,
            _ => below / 3.0,
        };
        let skewed = check.strength_case.map(|case| {
            let set = design.combination().without_increase();
            let actions = case.wind.combined(&case.dead, &set);
            (actions.shear().abs(), actions.moment().abs())
        });
        let (v, m) = skewed.unwrap_or((check.actions().shear(), check.actions().moment()));
        let paved = foundation.restraint() == Restraint::RigidPaving;
        let at_top = if paved {
            m.value
        } else {
            m.value + v.value * discounted.value
        };
        let length = check.strength.demand.embedment().value;
        let actions = counted.actions();
        Some(Self {
            number: post.post.number,
            top,
            face: foundation.section().face_width(),
            width: foundation.bearing_width().width(),
            concrete: foundation.hole().is_some(),
            backfilled: match foundation.hole() {
                Some(_) => None,
                None => foundation
                    .dug_hole()
                    .map(groundline::foundation::Hole::size),
            },
            frost,
            paved,
            depth: counted.depth(),
            required: check.required.depth(),
            shear: actions.shear(),
            moment: actions.moment(),
            height: actions.height(),
            discounted,
            reading,
            needed: counted.demand(),
            allowed: counted.capacity(),
            reaction: Reaction::new(v.value, at_top, length, paved),
            greatest: check.strength.demand.moment(),
            greatest_at: check.strength.demand.depth_of_moment(),
        })
    }

    /// Draws it.
    pub(crate) fn draw(&self, system: UnitSystem) -> Element {
        const HEIGHT: f64 = 400.0;
        const ABOVE: f64 = 46.0;
        let embedment = self.discounted.value + self.reaction.length;
        let frost = self.frost.map_or(0.0, |frost| frost.value);
        let deepest = [self.depth.value, self.required.value, frost]
            .into_iter()
            .fold(embedment, f64::max);
        let scale = HEIGHT / (self.top.value + deepest);
        let grade = ABOVE + self.top.value * scale;
        let y = |depth: f64| grade + depth * scale;
        let title = format!("Post {} and its hole", self.number);
        let mut svg = document(1000.0, ABOVE + HEIGHT + 64.0, &title);
        svg.append(patterns("hole"));
        self.post(&mut svg, scale, &y, system);
        self.bearing(&mut svg, &y, system);
        self.reactions(&mut svg, &y, system);
        svg
    }

    fn post(&self, svg: &mut Element, scale: f64, y: &dyn Fn(f64) -> f64, system: UnitSystem) {
        const X: f64 = 190.0;
        let size = |length| show_as(length, Measure::SectionLength, system).to_string();
        let (depth, half) = (self.depth.value, self.width.value * scale * 0.5);
        let post = self.face.value * scale * 0.5;
        if self.concrete {
            let hole = rectangle(X - half, y(0.0), 2.0 * half, y(depth) - y(0.0));
            svg.append(
                hole.set("fill", "url(#hole-hatched)")
                    .set("stroke-width", 1.4),
            );
        }
        if let Some(across) = self.backfilled {
            let wide = across.value * scale;
            let hole = rectangle(X - 0.5 * wide, y(0.0), wide, y(depth) - y(0.0));
            svg.append(hole.set("fill", "none").set("stroke-dasharray", "3 3"));
        }
        let body = rectangle(
            X - post,
            y(-self.top.value),
            2.0 * post,
            y(depth) - y(-self.top.value),
        );
        svg.append(body.set("fill", "#fff").set("stroke-width", 1.4));
        svg.append(line(40.0, y(0.0), 960.0, y(0.0)).set("stroke-width", 2));
        svg.append(label(44.0, y(0.0) - 6.0, 12, "start", "grade"));
        if self.paved {
            let paving = rectangle(X + half, y(0.0), 90.0, 7.0).set("fill", INK);
            svg.append(paving);
        }
        // The resultant of the wind.
        let at = y(-self.height.value);
        svg.append(line(X - 120.0, at, X - post - 10.0, at).set("stroke-width", 2));
        let tip = [
            (X - post, at),
            (X - post - 12.0, at - 5.0),
            (X - post - 12.0, at + 5.0),
        ];
        svg.append(area(&tip).set("fill", INK));
        let force = format!("P = {}", show(self.shear, system).significant(4));
        svg.append(label(X - 122.0, at - 8.0, 13, "start", force));
        let height = format!("h = M/P = {}", show(self.height, system).significant(4));
        svg.append(label(X + post + 12.0, at + 4.0, 12, "start", height));
        let moment = format!("M = {} at grade", show(self.moment, system).significant(4));
        svg.append(label(X + post + 12.0, at + 20.0, 12, "start", moment));
        // Depths.
        let right = X + half + 22.0;
        let mark =
            |svg: &mut Element, depth: Length, x: f64, dash: &str, text: String, down: f64| {
                let bottom = y(depth.value);
                let stroke = line(X - half - 14.0, bottom, x + 6.0, bottom);
                svg.append(stroke.set("stroke-dasharray", dash.to_owned()));
                svg.append(line(x, y(0.0), x, bottom).set("stroke-width", 0.8));
                svg.append(label(x + 10.0, bottom + down, 12, "start", text));
            };
        let needed = format!("required {}", size(self.required));
        let drawn = format!("depth {}", size(self.depth));
        // Labels keep apart where both depths are close.
        let close = (y(self.depth.value) - y(self.required.value)).abs() < 16.0;
        let deeper = self.required > self.depth;
        let (a, b) = match (close, deeper) {
            (false, _) => (4.0, 4.0),
            (true, true) => (-8.0, 12.0),
            (true, false) => (12.0, -8.0),
        };
        mark(svg, self.depth, right, "none", drawn, a);
        mark(svg, self.required, right + 8.0, "5 2", needed, b);
        let foot = format!("b = {}", size(self.width));
        svg.append(label(X, y(depth) + 18.0, 12, "middle", foot));
        if let Some(frost) = self.frost {
            let at = y(frost.value);
            let stroke = line(30.0, at, X + half + 16.0, at);
            svg.append(stroke.set("stroke-dasharray", "9 3 2 3"));
            let text = format!("frost to {}", size(frost));
            svg.append(label(34.0, at + 13.0, 12, "start", text));
        }
        if self.discounted.value > 0.0 {
            let t = self.discounted.value;
            svg.append(line(X - half - 30.0, y(t), X - half, y(t)).set("stroke-dasharray", "2 2"));
            let text = format!("top {} not counted", size(self.discounted));
            svg.append(label(X - half - 6.0, y(t) - 4.0, 11, "end", text));
        }
    }

    /// The lateral bearing of the depth formula.
    fn bearing(&self, svg: &mut Element, y: &dyn Fn(f64) -> f64, system: UnitSystem) {
        const X: f64 = 440.0;
        const WIDE: f64 = 190.0;
        let top = self.discounted.value;
        svg.append(
            label(X, 16.0, 13, "start", "Lateral bearing, depth formula")
                .set("font-weight", "bold"),
        );
        let bottom = self.depth.value;
        svg.append(line(X, y(0.0), X, y(bottom)));
        if bottom <= top || self.reading.value <= 0.0 {
            svg.append(label(
                X + 6.0,
                y(bottom) + 14.0,
                12,
                "start",
                "no ground that counts",
            ));
            return;
        }
        let at = top + self.reading.value;
        let most = self.needed.value.max(self.allowed.value);
        let x = |p: f64| X + WIDE * p / most;
        // Allowable bearing from the top of what counts to where it is read.
        let line_of = [(X, y(top)), (x(self.allowed.value), y(at)), (X, y(at))];
        svg.append(area(&line_of).set("fill", "#ddd"));
        svg.append(line(X, y(at), x(self.needed.value), y(at)).set("stroke-width", 2.4));
        let tick = x(self.needed.value);
        svg.append(line(tick, y(at) - 6.0, tick, y(at) + 6.0).set("stroke-width", 2.4));
        let value = |p: Pressure| show(p, system).significant(4).to_string();
        let share = if self.paved {
            "at depth d"
        } else {
            "at a third of the depth"
        };
        let texts = [
            format!("{share}: {}", show(Length::from_si(at), system)),
            format!("allowed {} (grey)", value(self.allowed)),
            format!("needed {} (bar)", value(self.needed)),
        ];
        let mut down = y(at) + 18.0;
        for text in texts {
            svg.append(label(X + 8.0, down, 12, "start", text));
            down += 15.0;
        }
    }

    /// The reaction that bends the post.
    fn reactions(&self, svg: &mut Element, y: &dyn Fn(f64) -> f64, system: UnitSystem) {
        const X: f64 = 800.0;
        const WIDE: f64 = 110.0;
        const STEPS: u32 = 48;
        svg.append(
            label(680.0, 16.0, 13, "start", "Soil reaction, rigid post").set("font-weight", "bold"),
        );
        svg.append(label(
            680.0,
            31.0,
            11,
            "start",
            "(model of the moment in the post; pressure on b)",
        ));
        let (top, length) = (self.discounted.value, self.reaction.length);
        let pressure = |share: f64| self.reaction.at(share) / self.width.value;
        let shares = || (0..=STEPS).map(|step| f64::from(step) / f64::from(STEPS));
        let most = shares().map(|s| pressure(s).abs()).fold(1e-9, f64::max);
        // Against the wind, which comes from the left, the ground presses left.
        let x = |p: f64| X - WIDE * p / most;
        let mut points = vec![(X, y(top))];
        points.extend(shares().map(|s| (x(pressure(s)), y(top + length * s))));
        points.push((X, y(top + length)));
        svg.append(area(&points).set("fill", "url(#hole-hatched)"));
        let axis = Path::new()
            .set("d", strokes(&[(X, y(0.0)), (X, y(top + length))]))
            .set("stroke", INK)
            .set("stroke-width", 2);
        svg.append(axis);
        let peak = shares().fold(0.0, |best: f64, s| {
            if pressure(s) > pressure(best) {
                s
            } else {
                best
            }
        });
        let value = |share: f64| {
            show(pa(pressure(share).abs()), system)
                .significant(3)
                .to_string()
        };
        svg.append(label(
            x(pressure(peak)) - 4.0,
            y(top + length * peak),
            12,
            "end",
            value(peak),
        ));
        if !self.paved {
            let foot = y(top + length) + 14.0;
            svg.append(label(X + WIDE, foot, 12, "end", value(1.0)));
        }
        let at = y(self.greatest_at.value);
        svg.append(line(X - 12.0, at, X + 12.0, at).set("stroke-width", 2));
        let text = format!("Mmax {}", show(self.greatest, system).significant(4));
        let down = if self.paved { 18.0 } else { 4.0 };
        svg.append(label(X + 18.0, at + down, 12, "start", text));
    }
}
