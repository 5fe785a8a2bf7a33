//! Larger posts of the catalogue, of the same kind and material.

use crate::error::Error;
use crate::post::catalogue::{ALUMINIUM, PIPES, SQUARE_TUBES, TIMBERS};
use crate::post::{
    AluminiumPost, DesignValues, Grade, PipePost, Post, SleevedPost, Species, SquareTubePost,
    TimberPost,
};
use crate::units::Length;

/// Two strengths, or two steels, this close are the same.
const HAIR: f64 = 1e-6;

const SPECIES: [Species; 5] = [
    Species::SouthernPine,
    Species::DouglasFirLarch,
    Species::HemFir,
    Species::SprucePineFir,
    Species::WesternCedars,
];

/// Posts stronger in bending than this one, from the weakest; none where the
/// catalogue has no such kind.
pub(super) fn larger(post: &Post) -> Vec<Post> {
    let mut all = match post {
        Post::Timber(own) => timbers(own),
        Post::Pipe(own) => pipes(own),
        Post::SquareTube(own) => SQUARE_TUBES
            .iter()
            .filter_map(|tube| SquareTubePost::new(tube.section().ok()?, own.steel()).ok())
            .map(Post::from)
            .collect(),
        Post::Aluminium(own) => ALUMINIUM
            .iter()
            .filter_map(|tube| AluminiumPost::new(tube.section().ok()?, own.metal()).ok())
            .map(Post::from)
            .collect(),
        Post::Sleeved(own) => larger(&Post::from(*own.insert()))
            .into_iter()
            .filter_map(|insert| SleevedPost::new(*own.sleeve(), insert).ok())
            .map(Post::from)
            .collect(),
        _ => Vec::new(),
    };
    let present = post.strength().moment;
    all.retain(|next| next.strength().moment > present * (1.0 + HAIR));
    // Stable: of equals the first of the catalogue.
    all.sort_by(|a, b| {
        let moment = |post: &Post| post.strength().moment.value;
        moment(a).total_cmp(&moment(b))
    });
    all
}

fn pipes(own: &PipePost) -> Vec<Post> {
    let fy = own.steel().yield_strength();
    let same = |other: crate::units::Pressure| (other - fy).abs() <= fy * HAIR;
    let of_steel = |pipe: &&crate::post::catalogue::FencePipe| {
        pipe.steel().is_ok_and(|steel| same(steel.yield_strength()))
    };
    let known = PIPES.iter().any(|pipe| of_steel(&pipe));
    PIPES
        .iter()
        .filter(|pipe| !known || of_steel(pipe))
        .filter_map(|pipe| PipePost::new(pipe.section().ok()?, own.steel()).ok())
        .map(Post::from)
        .collect()
}

fn timbers(own: &TimberPost) -> Vec<Post> {
    let values = *own.values();
    let side = own.section().side();
    let row = SPECIES
        .into_iter()
        .flat_map(|species| [(species, Grade::No1), (species, Grade::No2)])
        .find(|(species, grade)| DesignValues::of(*species, *grade, side) == Ok(values));
    // Values of a table change with its size class; one's own hold in their class.
    let at = |side: Length| -> Result<DesignValues, Error> {
        match row {
            Some((species, grade)) => DesignValues::of(species, grade, side),
            None => Ok(values),
        }
    };
    TIMBERS
        .iter()
        .filter(|timber| timber.side() > side * (1.0 + HAIR))
        .filter_map(|timber| {
            own.with(timber.section().ok()?, at(timber.side()).ok()?)
                .ok()
        })
        .map(Post::from)
        .collect()
}
