//! Everything the outputs show, computed once, whatever the wind code.

use super::drawing::hole::HolePicture;
use super::job::Job;
use super::job::site::Site;
use super::rows::{Row, State, step};
use groundline::actions::PressurePicture;
use groundline::backfill::Setting;
use groundline::caution::{Caution, Cautions};
use groundline::check::MaterialsSum;
use groundline::combination::CombinesTo;
use groundline::fence::PostKind;
use groundline::limit_state::AllowableStress;
use groundline::plan::Schedule;
use groundline::remedies::{RemedyOptions, of_plan};
use groundline::step::Worksheet;
use groundline::units::UnitSystem;
use groundline::wind::WindCode;

/// A longer fence gets no remedies here: each is tried on every post.
const MOST_POSTS: usize = 300;

/// A schedule with its worksheets.
#[derive(Debug)]
pub(crate) struct Sheet<'a> {
    pub(crate) job: &'a Job,
    pub(crate) rows: Vec<Row>,
    /// The number of the post that governs, and its worksheet, for each kind;
    /// the one that governs the fence first.
    pub(crate) governing: Vec<(usize, Worksheet)>,
    /// Worksheets of all posts, if asked for.
    pub(crate) all: Option<Vec<Worksheet>>,
    /// The pressure along each run.
    pub(crate) pressures: Vec<PressurePicture>,
    pub(crate) hole: Option<HolePicture>,
    /// Of each run, of the fence, and of what each filling takes where there
    /// are several; nothing where no quantities were asked for.
    pub(crate) quantities: Vec<Quantity>,
    /// Single changes that make every failing post pass, or that none does; empty where
    /// nothing fails.
    pub(crate) instead: Vec<String>,
    /// What the heavier reading of Case B would change, in one line.
    pub(crate) case_b: Option<String>,
    pub(crate) cautions: Cautions,
    /// Cautions on the spacing of posts, and the numbers of their posts.
    pub(crate) spacing: Vec<(Caution, Vec<usize>)>,
    pub(crate) document: &'static str,
    /// The state the wind is stated at.
    pub(crate) level: &'static str,
}

impl Sheet<'_> {
    pub(crate) fn system(&self) -> UnitSystem {
        self.job.system
    }

    /// How many posts came out so.
    pub(crate) fn count(&self, state: State) -> usize {
        self.rows.iter().filter(|row| row.state() == state).count()
    }

    /// How many posts have no depth planned.
    pub(crate) fn unplanned(&self) -> usize {
        self.rows.iter().filter(|row| row.planned.is_none()).count()
    }

    /// What was refused and why, with the numbers of the posts, shortened.
    pub(crate) fn refusals(&self) -> Vec<(String, String)> {
        grouped(self.rows.iter().flat_map(|row| {
            let told = row
                .refused
                .iter()
                .map(|(name, why)| format!("{name} not checked: {why}"));
            told.map(|told| (told, row.number))
        }))
    }

    /// The remedies of posts that frost lifts, with their numbers.
    pub(crate) fn remedies(&self) -> Vec<(String, String)> {
        grouped(self.rows.iter().filter_map(|row| {
            let remedy = row.site.frost.done()?.remedy()?;
            Some((remedy.to_owned(), row.number))
        }))
    }

    /// The row of the post that governs the fence.
    pub(crate) fn worst(&self) -> Option<&Row> {
        let number = self.governing.first().map(|(number, _)| *number)?;
        self.rows.iter().find(|row| row.number == number)
    }
}

/// Texts that are alike once, with the numbers of their posts as ranges.
fn grouped(told: impl Iterator<Item = (String, usize)>) -> Vec<(String, String)> {
    let mut groups: Vec<(String, Vec<usize>)> = Vec::new();
    for (text, number) in told {
        match groups.iter_mut().find(|(other, _)| *other == text) {
            Some((_, numbers)) => numbers.push(number),
            None => groups.push((text, vec![number])),
        }
    }
    groups
        .into_iter()
        .map(|(text, numbers)| (text, ranges(&numbers)))
        .collect()
}

/// Numbers that rise, those in a row shortened: 1 to 3, 5.
pub(crate) fn ranges(numbers: &[usize]) -> String {
    let rows = numbers.chunk_by(|a, b| a + 1 == *b);
    let rows = rows.map(|row| match row {
        [one] => one.to_string(),
        [first, second] => format!("{first}, {second}"),
        [first, .., last] => format!("{first} to {last}"),
        [] => String::new(),
    });
    rows.collect::<Vec<_>>().join(", ")
}

/// What several posts take.
#[derive(Debug)]
pub(crate) struct Quantity {
    pub(crate) key: String,
    pub(crate) name: String,
    pub(crate) sum: MaterialsSum,
    /// Is it all one kind of bag, so that what is left of one may go on?
    pub(crate) one_bag: bool,
}

/// Computes the sheet of a job. `tick` hears of every post done.
pub(crate) fn of<'a>(job: &'a Job, all: bool, tick: &dyn Fn()) -> Result<Sheet<'a>, String> {
    match job.site {
        Site::Asce(site) => at(job, site, all, tick),
        Site::GivenStrength(site) => at(job, site, all, tick),
        Site::GivenAllowable(site) => at(job, site, all, tick),
    }
}

fn at<'a, C: WindCode>(
    job: &'a Job,
    site: C,
    all: bool,
    tick: &dyn Fn(),
) -> Result<Sheet<'a>, String>
where
    C::Level: CombinesTo<AllowableStress>,
{
    let system = job.system;
    let said = |error: groundline::Error| error.in_system(system).to_string();
    let plan = job.plan(site).map_err(said)?;
    let schedule = plan.schedule().map_err(said)?;
    let mut rows = Vec::new();
    let mut cautions = Cautions::default();
    let mut sheets = all.then(Vec::new);
    for post in schedule.posts() {
        let dug = job.dug.iter().find(|dug| dug.number == post.post.number);
        let note = dug.map(|dug| dug.note.clone());
        let to_dig = schedule.dug(post.post.number, step(system)).map_err(said)?;
        rows.push(Row::new(&site, &post, &to_dig, job, note));
        cautions = cautions.and(post.cautions());
        if let Some(sheets) = &mut sheets {
            sheets.push(schedule.worksheet(&post, system));
        }
        tick();
    }
    let kinds = [
        PostKind::End,
        PostKind::Line,
        PostKind::Corner,
        PostKind::Gate,
    ];
    let mut worst: Vec<&Row> = kinds
        .into_iter()
        .filter_map(|kind| rows.iter().filter(|row| row.kind == kind).reduce(worse))
        .collect();
    // Stable: of equals the first kind stays first.
    worst.sort_by(|a, b| {
        let required = |row: &Row| row.required.value;
        (b.utilization.cmp(&a.utilization)).then(required(b).total_cmp(&required(a)))
    });
    let governing = worst
        .iter()
        .filter_map(|row| {
            let post = schedule.post(row.number)?;
            Some((row.number, schedule.worksheet(&post, system)))
        })
        .collect();
    let first = worst.first().and_then(|row| schedule.post(row.number));
    let hole = first.and_then(|post| {
        let tops = post
            .post
            .arms()
            .filter_map(|arm| job.fence.runs().get(arm.run));
        let top = tops
            .map(|run| run.panel().top())
            .reduce(|a, b| if b > a { b } else { a });
        HolePicture::of(&post, top?, job.asked.frost_depth())
    });
    let spacing = [Caution::CloseSpacing, Caution::RowSpacing]
        .map(|caution| (caution, schedule.posts_with(caution).collect()))
        .into();
    let runs = 0..schedule.wind().runs().len();
    let pressures = runs
        .filter_map(|run| schedule.wind().picture(run))
        .collect();
    let instead = if rows.iter().all(|row| row.failing.is_empty()) || rows.len() > MOST_POSTS {
        Vec::new()
    } else {
        let options = RemedyOptions::of(system);
        of_plan(&plan, &options).map_err(said)?.lines(system)
    };
    let case_b = schedule.case_b_on_every_run().map_err(said)?;
    Ok(Sheet {
        job,
        case_b: case_b.map(|reading| reading.text(system)),
        instead,
        governing,
        all: sheets,
        pressures,
        hole,
        quantities: quantities(&schedule, job, &rows),
        cautions,
        spacing,
        document: site.document(),
        level: groundline::limit_state::LimitState::name(site.level()),
        rows,
    })
}

impl Sheet<'_> {
    /// A caution in full, with its posts where it is on their spacing.
    pub(crate) fn caution(&self, caution: Caution) -> String {
        let posts = self.spacing.iter().find(|(one, _)| *one == caution);
        let posts = posts.map_or(&[][..], |(_, posts)| posts);
        if posts.is_empty() {
            return caution.text().to_owned();
        }
        let numbers: Vec<_> = posts.iter().map(usize::to_string).collect();
        format!("{} Posts {}.", caution.text(), numbers.join(", "))
    }
}

/// The quantities of each run, of the fence, and of each filling.
fn quantities<C: WindCode>(schedule: &Schedule<'_, C>, job: &Job, rows: &[Row]) -> Vec<Quantity>
where
    C::Level: CombinesTo<AllowableStress>,
{
    if !job.asked.materials() {
        return Vec::new();
    }
    let bagged = |row: &Row| {
        row.site
            .materials
            .done()
            .is_some_and(|all| all.bags.is_some())
    };
    let fillings = |run: Option<usize>| {
        let of_run = |row: &&Row| run.is_none() || Some(row.run) == run;
        Setting::ALL
            .into_iter()
            .filter(|setting| {
                let mut posts = rows.iter().filter(of_run);
                posts.any(|row| row.setting == Some(*setting) && bagged(row))
            })
            .collect::<Vec<_>>()
    };
    let mut all: Vec<_> = job
        .runs
        .iter()
        .enumerate()
        .map(|(run, name)| Quantity {
            key: format!("run{}", run + 1),
            name: name.clone(),
            sum: schedule.materials(Some(run)),
            one_bag: fillings(Some(run)).len() < 2,
        })
        .collect();
    let in_all = fillings(None);
    all.push(Quantity {
        key: "fence".to_owned(),
        name: "The fence".to_owned(),
        sum: schedule.materials(None),
        one_bag: in_all.len() < 2,
    });
    if in_all.len() < 2 {
        return all;
    }
    for setting in in_all {
        let posts = rows.iter().filter(|row| row.setting == Some(setting));
        let sum = posts.fold(MaterialsSum::default(), |sum, row| {
            sum.with(row.site.materials.done())
        });
        all.push(Quantity {
            key: setting.name().replace(' ', "_"),
            name: format!("of it in {}", setting.name()),
            sum,
            one_bag: true,
        });
    }
    all
}

/// The row that governs: the higher utilization, then the greater depth.
fn worse<'r>(one: &'r Row, other: &'r Row) -> &'r Row {
    let higher = other.utilization > one.utilization;
    let equal = other.utilization == one.utilization;
    if higher || (equal && other.required > one.required) {
        other
    } else {
        one
    }
}
