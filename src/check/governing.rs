//! The checks by name.

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
}

impl Governing {
    /// Every check.
    pub const ALL: [Self; 4] = [
        Self::Embedment,
        Self::Bending,
        Self::Shear,
        Self::VerticalBearing,
    ];

    /// Its name.
    #[inline]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Embedment => "embedment",
            Self::Bending => "post bending",
            Self::Shear => "post shear",
            Self::VerticalBearing => "vertical bearing",
        }
    }
}

impl core::fmt::Display for Governing {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}
