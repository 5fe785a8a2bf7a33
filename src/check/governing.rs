//! The checks by name. The last five are made only where asked for
//! ([`crate::check::SiteChecks`]).

/// Which check governs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Governing {
    /// The depth in the ground.
    Embedment,
    /// Bending of the post.
    Bending,
    /// Shear of the post.
    Shear,
    /// Vertical bearing of the base.
    VerticalBearing,
    /// Lean of the top, where a limit was given.
    Lean,
    /// Frost that lifts the post.
    FrostUplift,
    /// A force that pulls the post out.
    PullOut,
    /// Weight and bending of the post together.
    AxialBending,
    /// Movement of an isolated pole at grade against ½ in, where the stiffness of the
    /// ground was given.
    GradeMovement,
}

impl Governing {
    /// Every check.
    pub const ALL: [Self; 9] = [
        Self::Embedment,
        Self::Bending,
        Self::Shear,
        Self::VerticalBearing,
        Self::Lean,
        Self::FrostUplift,
        Self::PullOut,
        Self::AxialBending,
        Self::GradeMovement,
    ];

    /// Its name.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Embedment => "embedment",
            Self::Bending => "post bending",
            Self::Shear => "post shear",
            Self::VerticalBearing => "vertical bearing",
            Self::Lean => "lean",
            Self::FrostUplift => "frost uplift",
            Self::PullOut => "pull-out",
            Self::AxialBending => "axial load with bending",
            Self::GradeMovement => "movement at grade",
        }
    }
}

impl core::fmt::Display for Governing {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}
