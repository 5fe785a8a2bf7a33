//! The example `schedule`: every kind of post and every setting that a job file
//! may name.

use super::schedule_asked::{JOB, job, made};
use super::schedule_example::page;
use super::schedule_example::schedule::job::Job;
use groundline::backfill::Setting;
use groundline::check::PostDesign;
use groundline::foundation::Hole;
use groundline::ground::{Ground, SoilClass};
use groundline::post::{
    Alloy, Aluminium, AluminiumPost, DesignValues, GivenPost, Grade, Moisture, PipePost, Post,
    RoundTimber, Sleeve, SleevedPost, Species, SquareTubePost, SteelStrength, Temper, TimberPost,
    Treatment,
};
use groundline::section::{Disc, PostSection, Square, SquareTube, Tube};
use groundline::units::*;
use std::path::Path;

/// Every kind of post and every setting of a job file is the library's.
#[test]
fn every_kind_of_post_and_setting_is_that_of_the_library() {
    let ground = Ground::presumptive(SoilClass::Class4);
    let hole = Hole::round(inch(18.0)).unwrap();
    let steel = |fy| SteelStrength::new(ksi(fy)).unwrap();
    let tube = Tube::new(inch(4.0), inch(0.226)).unwrap();
    let square = SquareTube::new(inch(4.0), inch(0.25)).unwrap();
    let sharp = square.with_corner_radius(inch(0.0)).unwrap();
    let insert = SquareTubePost::new(SquareTube::new(inch(3.0), inch(0.2)).unwrap(), steel(46.0));
    let own = Aluminium::given(ksi(30.0), ksi(33.0)).unwrap();
    let alloy = Aluminium::of(Alloy::A6061T6, Temper::Welded);
    let timber = DesignValues::of(Species::HemFir, Grade::No2, inch(5.5)).unwrap();
    let timber = TimberPost::new(
        Square::new(inch(5.5)).unwrap(),
        timber.with_modulus(ksi(1_000.0)).unwrap(),
        Moisture::Wet,
        Treatment::Incised,
    );
    let sleeve = Sleeve::new(inch(5.0), inch(0.135)).unwrap();
    let pole = |disc| RoundTimber::new(disc, ksi(1.5), lb_per_sq_in(110.0)).unwrap();
    let given = GivenPost::new(
        PostSection::Square(Square::new(inch(4.0)).unwrap()),
        kip_ft(5.0),
        kipf(4.0),
    );
    let kinds: [(&str, Post); 9] = [
        (
            "material = \"square tube\"\nsize = \"4 in\"\nwall = \"1/4 in\"\nyield = \"46 ksi\"",
            SquareTubePost::new(square, steel(46.0)).unwrap().into(),
        ),
        (
            "material = \"round timber\"\ndiameter = \"7 in\"\nbending = \"1500 psi\"\nshear = \"110 psi\"",
            pole(Disc::new(inch(7.0)).unwrap()).into(),
        ),
        (
            "material = \"round timber\"\ncircumference = \"22 in\"\nbending = \"1500 psi\"\nshear = \"110 psi\"\nmodulus = \"1200 ksi\"",
            pole(Disc::of_circumference(inch(22.0)).unwrap())
                .with_modulus(ksi(1_200.0))
                .unwrap()
                .into(),
        ),
        (
            "material = \"aluminium\"\nsize = \"4 in\"\nwall = \"1/4 in\"\ncorner_radius = \"0 in\"\nyield = \"30 ksi\"\nultimate = \"33 ksi\"",
            AluminiumPost::new(sharp, own).unwrap().into(),
        ),
        (
            "material = \"aluminium\"\ndiameter = \"4 in\"\nwall = \"0.226 in\"\nalloy = \"6061-T6\"\nweld = \"near grade\"",
            AluminiumPost::new(tube, alloy).unwrap().into(),
        ),
        (
            "material = \"sleeved vinyl\"\nsleeve_size = \"5 in\"\nsleeve_wall = \"0.135 in\"\ninsert = \"square tube\"\nsize = \"3 in\"\nwall = \"0.2 in\"\nyield = \"46 ksi\"",
            SleevedPost::new(sleeve, insert.unwrap().into())
                .unwrap()
                .into(),
        ),
        (
            "material = \"given strength\"\nsize = \"4 in\"\nallowable_moment = \"5 kip·ft\"\nallowable_shear = \"4 kip\"\nrigidity = \"3e7 lb·in²\"",
            given.unwrap().with_rigidity(lb_sq_in(3e7)).unwrap().into(),
        ),
        (
            "material = \"timber\"\nsize = \"5.5 in\"\nspecies = \"hem-fir\"\ngrade = 2\ntreatment = \"incised\"\nmodulus = \"1000 ksi\"",
            timber.unwrap().into(),
        ),
        (
            "material = \"pipe\"\ndiameter = \"4 in\"\nwall = \"0.226 in\"\nyield = \"50 ksi\"",
            PipePost::new(tube, steel(50.0)).unwrap().into(),
        ),
    ];
    let (from, to) = (JOB.find("material").unwrap(), JOB.find("hole").unwrap());
    let parse = |text: &str| {
        Job::parse(text, "job.toml", Path::new(""))
            .unwrap_or_else(|said| panic!("{text}: {said:?}"))
    };
    for (text, post) in kinds {
        let text = format!("{}{text}\n{}", &JOB[..from], &JOB[to..]);
        let design = parse(&text).specs.general().design().unwrap();
        assert_eq!(design, PostDesign::in_concrete(ground, post, hole).unwrap());
        let (_, html, _) = made(&text, "kinds");
        assert!(!html.contains("NaN") && !html.contains("Posts, unless said otherwise: as given"));
    }
    let pipe: Post = PipePost::new(tube, steel(50.0)).unwrap().into();
    for (word, setting) in [
        ("foam", Setting::ExpandingFoam),
        ("gravel", Setting::CompactedGravel),
        ("tamped soil", Setting::TampedSoil),
    ] {
        let text = job("hole =", &format!("set_in = \"{word}\"\nhole ="), "");
        let design = parse(&text).specs.general().design().unwrap();
        assert_eq!(
            design,
            PostDesign::set_in(ground, pipe, setting, hole).unwrap()
        );
        let (_, html, csv) = made(&text, "settings");
        assert!(html.contains(setting.name()) && csv.contains(setting.name()));
    }
    let text = job(
        "hole = \"18 in\"",
        "set_in = \"driven\"",
        "[materials]\nbase = \"4 in\"",
    );
    let design = parse(&text).specs.general().design().unwrap();
    assert_eq!(design, PostDesign::driven(ground, pipe));
    // A driven post has no gravel below and nothing to carry.
    let (_, html, _) = made(&text, "driven");
    let page = page(&html);
    let number = |field: &str| page.numbers[&(1, field.to_owned())].value;
    if let Some(dig) = page.numbers.get(&(1, "dig".to_owned())) {
        assert_eq!(dig.value, number("planned").max(number("required").ceil()));
    }
    assert_eq!((number("carry"), number("fill")), (0.0, 0.0));
}
