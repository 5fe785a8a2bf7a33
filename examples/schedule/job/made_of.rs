//! What a post is made of: a material, and the fields that go with it.

use super::fields::Table;
use super::posts::MADE_OF;
use groundline::post::{
    Alloy, Aluminium, AluminiumPost, DesignValues, GivenPost, Grade, Moisture, PipePost, Post,
    RoundTimber, Sleeve, SleevedPost, Species, SquareTubePost, SteelStrength, Temper, TimberPost,
    Treatment,
};
use groundline::section::{Disc, HollowSection, PostSection, Square, SquareTube, Tube};

/// The materials by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Material {
    Timber,
    Pipe,
    SquareTube,
    RoundTimber,
    Aluminium,
    Given,
    Sleeved,
}

const MATERIALS: [(&str, Material); 7] = [
    ("timber", Material::Timber),
    ("pipe", Material::Pipe),
    ("square tube", Material::SquareTube),
    ("round timber", Material::RoundTimber),
    ("aluminium", Material::Aluminium),
    ("given strength", Material::Given),
    ("sleeved vinyl", Material::Sleeved),
];

impl Material {
    const fn fields(self) -> &'static [&'static str] {
        match self {
            Self::Timber => &["size", "species", "grade", "treatment", "modulus"],
            Self::Pipe => &["diameter", "wall", "yield"],
            Self::SquareTube => &["size", "wall", "corner_radius", "yield"],
            Self::RoundTimber => &["diameter", "circumference", "bending", "shear", "modulus"],
            Self::Aluminium => &[
                "size",
                "diameter",
                "wall",
                "corner_radius",
                "alloy",
                "weld",
                "yield",
                "ultimate",
            ],
            Self::Given => &[
                "size",
                "diameter",
                "allowable_moment",
                "allowable_shear",
                "rigidity",
            ],
            Self::Sleeved => &["sleeve_size", "sleeve_wall", "insert"],
        }
    }

    fn word(self) -> &'static str {
        let found = MATERIALS.iter().find(|(_, material)| *material == self);
        found.map_or("", |(word, _)| word)
    }

    /// Reads the fields of this material.
    fn post(self, table: &Table<'_>) -> Option<Post> {
        match self {
            Self::Timber => timber(table),
            Self::Pipe => pipe(table),
            Self::SquareTube => square_tube(table),
            Self::RoundTimber => round_timber(table),
            Self::Aluminium => aluminium(table),
            Self::Given => given(table),
            Self::Sleeved => None,
        }
    }
}

/// Reads the material and what goes with it.
pub(super) fn read(table: &Table<'_>) -> Option<Post> {
    let Some(material) = table.choice("material", &MATERIALS, true) else {
        expect_all(table);
        return None;
    };
    if material != Material::Sleeved {
        refuse_others(table, material, None);
        return material.post(table);
    }
    let inserts = &MATERIALS[..MATERIALS.len() - 1];
    let insert = table.choice("insert", inserts, true);
    let (size, wall) = (table.required("sleeve_size"), table.required("sleeve_wall"));
    let Some(insert) = insert else {
        expect_all(table);
        return None;
    };
    refuse_others(table, material, Some(insert));
    let post = insert.post(table);
    let made = Sleeve::new(size?, wall?);
    let sleeve = table.take_by("sleeve_size", &[("sleeve wall", "sleeve_wall")], made)?;
    let made = SleevedPost::new(sleeve, post?);
    table.take("insert", made).map(Post::from)
}

/// Where it is not known which fields belong here, all may.
fn expect_all(table: &Table<'_>) {
    for field in MADE_OF {
        let _ = table.has_own(field);
    }
}

/// Refuses the fields of other materials.
fn refuse_others(table: &Table<'_>, material: Material, insert: Option<Material>) {
    let allowed = |field: &str| {
        let own = [Some(material), insert].into_iter().flatten();
        field == "material" || own.into_iter().any(|m| m.fields().contains(&field))
    };
    for field in MADE_OF.iter().filter(|field| !allowed(field)) {
        if table.has_own(field) {
            let of: Vec<_> = MATERIALS
                .iter()
                .filter(|(_, other)| other.fields().contains(field))
                .map(|(word, _)| format!("\"{word}\""))
                .collect();
            let here = insert.map_or(String::new(), |insert| {
                format!(", insert \"{}\"", insert.word())
            });
            let word = material.word();
            let of = of.join(", ");
            table.refuse(
                field,
                format!("this is of {of}, and material is \"{word}\"{here}"),
            );
        }
    }
}

/// Which of two fields is given; one must be, not both.
fn either(table: &Table<'_>, one: &'static str, other: &'static str) -> Option<&'static str> {
    let reason = format!("leave it out, or {one}: one of them");
    match (table.has_own(one), table.has_own(other)) {
        (true, true) => {
            table.refuse(other, reason);
            None
        }
        (true, false) => Some(one),
        (false, true) => Some(other),
        (false, false) if table.has(one) => Some(one),
        (false, false) if table.has(other) => Some(other),
        (false, false) => {
            table.missing(one, &format!("give it, or {other}, with its unit"));
            None
        }
    }
}

fn timber(table: &Table<'_>) -> Option<Post> {
    let species = [
        ("southern pine", Species::SouthernPine),
        ("Douglas fir-larch", Species::DouglasFirLarch),
        ("hem-fir", Species::HemFir),
        ("spruce-pine-fir", Species::SprucePineFir),
        ("western cedar", Species::WesternCedars),
    ];
    let species = table.choice("species", &species, true);
    let grade = table.choice("grade", &[("1", Grade::No1), ("2", Grade::No2)], true);
    let treatments = [
        ("not incised", Treatment::NotIncised),
        ("incised", Treatment::Incised),
    ];
    let treatment = table.choice("treatment", &treatments, true);
    let side = table.required("size")?;
    let section = table.take("size", Square::new(side));
    let values = table.take("species", DesignValues::of(species?, grade?, side))?;
    let values = table.with("modulus", values, DesignValues::with_modulus);
    let made = TimberPost::new(section?, values, Moisture::Wet, treatment?);
    table.take("size", made).map(Post::from)
}

fn steel(table: &Table<'_>) -> Option<SteelStrength> {
    let strength = table.required("yield")?;
    table.take("yield", SteelStrength::new(strength))
}

fn tube(table: &Table<'_>) -> Option<Tube> {
    let (diameter, wall) = (table.required("diameter"), table.required("wall"));
    let made = Tube::new(diameter?, wall?);
    table.take_by("diameter", &[("pipe wall", "wall")], made)
}

fn square_section(table: &Table<'_>) -> Option<SquareTube> {
    let (side, wall) = (table.required("size"), table.required("wall"));
    let made = SquareTube::new(side?, wall?);
    let tube = table.take_by("size", &[("tube wall", "wall")], made)?;
    Some(table.with("corner_radius", tube, SquareTube::with_corner_radius))
}

fn pipe(table: &Table<'_>) -> Option<Post> {
    let (tube, steel) = (tube(table), steel(table));
    table
        .take("wall", PipePost::new(tube?, steel?))
        .map(Post::from)
}

fn square_tube(table: &Table<'_>) -> Option<Post> {
    let (tube, steel) = (square_section(table), steel(table));
    table
        .take("wall", SquareTubePost::new(tube?, steel?))
        .map(Post::from)
}

fn round_timber(table: &Table<'_>) -> Option<Post> {
    let section = either(table, "diameter", "circumference").and_then(|key| {
        let across = table.quantity(key)?;
        table.take(
            key,
            if key == "diameter" {
                Disc::new(across)
            } else {
                Disc::of_circumference(across)
            },
        )
    });
    let (bending, shear) = (table.required("bending"), table.required("shear"));
    let made = RoundTimber::new(section?, bending?, shear?);
    let post = table.take_by("bending", &[("Fv", "shear")], made)?;
    Some(
        table
            .with("modulus", post, RoundTimber::with_modulus)
            .into(),
    )
}

fn aluminium(table: &Table<'_>) -> Option<Post> {
    let section = either(table, "size", "diameter").and_then(|key| {
        if key == "size" {
            square_section(table).map(HollowSection::from)
        } else {
            if table.has_own("corner_radius") {
                table.refuse("corner_radius", "a round tube has none");
            }
            tube(table).map(HollowSection::from)
        }
    });
    let metal = if table.has("alloy") {
        for key in ["yield", "ultimate"] {
            if table.has_own(key) {
                table.refuse(key, "leave it out, or alloy: one of them");
            }
        }
        let alloys = [("6063-T6", Alloy::A6063T6), ("6061-T6", Alloy::A6061T6)];
        let alloy = table.choice("alloy", &alloys, true);
        let welds = [
            ("none near grade", Temper::Unwelded),
            ("near grade", Temper::Welded),
        ];
        let weld = table.choice("weld", &welds, true);
        Some(Aluminium::of(alloy?, weld?))
    } else if table.has("yield") || table.has("ultimate") {
        if table.has_own("weld") {
            table.refuse(
                "weld",
                "this goes with alloy; your own strengths know of it",
            );
        }
        let (least, most) = (table.required("yield"), table.required("ultimate"));
        let made = Aluminium::given(least?, most?);
        table.take_by("yield", &[("Ftu", "ultimate")], made)
    } else {
        table.missing(
            "alloy",
            "give one of \"6063-T6\", \"6061-T6\", or yield and ultimate",
        );
        None
    };
    let made = AluminiumPost::new(section?, metal?);
    table.take("wall", made).map(Post::from)
}

fn given(table: &Table<'_>) -> Option<Post> {
    let section = either(table, "size", "diameter").and_then(|key| {
        let across = table.quantity(key)?;
        if key == "size" {
            table
                .take(key, Square::new(across))
                .map(PostSection::Square)
        } else {
            table.take(key, Disc::new(across)).map(PostSection::Disc)
        }
    });
    let moment = table.required("allowable_moment");
    let shear = table.required("allowable_shear");
    let made = GivenPost::new(section?, moment?, shear?);
    let others = [("allowable shear", "allowable_shear")];
    let post = table.take_by("allowable_moment", &others, made)?;
    Some(
        table
            .with("rigidity", post, GivenPost::with_rigidity)
            .into(),
    )
}
