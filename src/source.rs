//! Where every number comes from: document, edition, clause, and how well it
//! is known.
//!
//! Each [`Citation`] has an id that stands in `references.md` with the full
//! story. A test keeps the two in step.

use core::fmt;

/// How well a value or formula is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Mark {
    /// Seen in the named source and recomputed.
    Published,
    /// Seen only as quoted by others.
    Quoted,
    /// Not confirmed against any page.
    FromMemory,
    /// Mathematics from a stated formula, checked numerically.
    Derived,
    /// Told in the trade; no source.
    CommonPractice,
    /// Given by the user.
    Given,
}

impl Mark {
    /// The mark as printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Quoted => "quoted",
            Self::FromMemory => "from memory",
            Self::Derived => "derived",
            Self::CommonPractice => "common practice, no source",
            Self::Given => "given",
        }
    }
}

/// A clause of a document.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Citation {
    /// Its id in `references.md`.
    pub id: &'static str,
    /// Document and edition.
    pub document: &'static str,
    /// Clause, equation, table or figure.
    pub clause: &'static str,
    /// How well it is known.
    pub mark: Mark,
}

impl fmt::Display for Citation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.document)?;
        if !self.clause.is_empty() {
            write!(f, " {}", self.clause)?;
        }
        write!(f, " ({})", self.mark.name())
    }
}

macro_rules! citations {
    ($( $name:ident = $id:literal, $document:literal, $clause:literal, $mark:ident; )+) => {
        $(
            #[doc = concat!($document, " ", $clause, ". [`Mark::", stringify!($mark), "`].")]
            pub static $name: Citation = Citation {
                id: $id,
                document: $document,
                clause: $clause,
                mark: Mark::$mark,
            };
        )+

        /// Every citation of this crate.
        pub static ALL: &[&Citation] = &[ $( &$name ),+ ];
    };
}

citations! {
    UNITS_NIST = "nist-sp811", "NIST SP 811 (2008)", "App. B.8, exact factors", FromMemory;
    GIVEN = "given", "Given by the user", "", Given;
    GEOMETRY = "geometry", "Geometry", "", Derived;
    STATICS = "statics", "Statics", "", Derived;

    ASCE7_10_29_3_2 = "asce7-10/29.3.2", "ASCE 7-10", "29.3.2, Eq. 29.3-1", Quoted;
    ASCE7_16_26_10_2 = "asce7-16/26.10.2", "ASCE 7-16", "26.10.2, Eq. 26.10-1", Quoted;
    ASCE7_22_26_10_2 = "asce7-22/26.10.2", "ASCE 7-22", "26.10.2, Eq. 26.10-1", Quoted;
    ASCE7_10_KZ = "asce7-10/table-29.3-1", "ASCE 7-10", "Table 29.3-1 (7-16 Table 26.10-1)", Quoted;
    ASCE7_22_KZ = "asce7-22/table-26.11-1", "ASCE 7-22", "Tables 26.10-1, 26.11-1", Quoted;
    ASCE7_RETURN_PERIOD = "asce7/return-period", "ASCE 7", "return periods of the wind maps by risk category (26.5)", FromMemory;
    IBC_1609_3_1 = "ibc/1609.3.1", "IBC", "1609.3.1, V_asd = V sqrt(0.6)", FromMemory;
    ASCE7_26_6 = "asce7/table-26.6-1", "ASCE 7-10/-16/-22", "Table 26.6-1", Quoted;
    ASCE7_26_8 = "asce7/26.8", "ASCE 7-10/-16/-22", "26.8", Quoted;
    ASCE7_KZT = "asce7/figure-26.8-1", "ASCE 7-10/-16/-22", "Fig. 26.8-1, exposure C", Quoted;
    ASCE7_KZT_FROM_MEMORY = "asce7/figure-26.8-1-from-memory", "ASCE 7-10/-16/-22", "Fig. 26.8-1, exposures B and D; steep features; features that do not count", FromMemory;
    ASCE7_26_9 = "asce7-16/table-26.9-1", "ASCE 7-16/-22", "26.9, Table 26.9-1", Quoted;
    ASCE7_26_11 = "asce7/gust", "ASCE 7", "7-10 26.9.1; 7-16, 7-22 26.11.1", Quoted;
    ASCE7_MINIMUM = "asce7/minimum", "ASCE 7", "minimum 16 psf (clause number from memory: 7-10 29.8; 7-16, 7-22 29.7)", Quoted;
    ASCE7_WALL_FORCE = "asce7/wall-force", "ASCE 7", "7-10 29.4.1; 7-16, 7-22 29.3.1", Quoted;
    ASCE7_WALL_CASES_A_B = "asce7-10/figure-29.4-1-ab", "ASCE 7-10", "Fig. 29.4-1, Cases A and B", Published;
    ASCE7_WALL_CASES_A_B_LATER = "asce7-16/figure-29.3-1-ab", "ASCE 7-16/-22", "Fig. 29.3-1, Cases A and B", Quoted;
    ASCE7_WALL_CASE_B = "asce7/wall-case-b", "ASCE 7", "wall figure, Case B, spread linearly along short runs", Derived;
    ASCE7_WALL_CASE_C = "asce7/wall-case-c", "ASCE 7", "wall figure, Case C and its notes", Quoted;
    ASCE7_WALL_RETURN = "asce7/wall-return", "ASCE 7", "wall figure, return corner", Quoted;
    ASCE7_WALL_OPENINGS = "asce7/wall-openings", "ASCE 7", "wall figure, note on openings", Quoted;
    ASCE7_WALL_RESULTANT = "asce7/wall-resultant", "ASCE 7", "wall figure, note on the resultant; holding 0.55 h for a small gap is our reading", Derived;
    ASCE7_OPEN_SIGN = "asce7/open-sign", "ASCE 7", "7-10 Fig. 29.5-2; 7-16, 7-22 Fig. 29.4-2", Quoted;
    LINEAR_SPREAD = "linear-spread", "A resultant off centre", "spread linearly along the wall", Derived;
    HAND_OVER = "hand-over", "The worse of two figures", "between walls and open fences of ASCE 7, a limit of ours", Derived;
    ASCE7_2_4_1 = "asce7/2.4.1", "ASCE 7", "2.4.1, D + 0.6W (seen for 7-16 and 7-22)", Quoted;

    ASCE7_2_3_1 = "asce7/2.3.1", "ASCE 7", "2.3.1, 1.2D + 1.0W and 0.9D + 1.0W", FromMemory;

    EN1991_4_2 = "en1991-1-4/4.2", "EN 1991-1-4:2005+A1:2010", "4.2", Quoted;
    EN1991_4_3 = "en1991-1-4/4.3", "EN 1991-1-4:2005+A1:2010", "4.3, Table 4.1", Quoted;
    EN1991_4_4 = "en1991-1-4/4.4", "EN 1991-1-4:2005+A1:2010", "4.4", Quoted;
    EN1991_4_5 = "en1991-1-4/4.5", "EN 1991-1-4:2005+A1:2010", "4.5", Quoted;
    EN1991_7_4_1 = "en1991-1-4/7.4.1", "EN 1991-1-4:2005+A1:2010", "7.4.1, Table 7.9", Quoted;
    EN1991_7_4_2 = "en1991-1-4/7.4.2", "EN 1991-1-4:2005+A1:2010", "7.4.2, factor as given", Quoted;
    EN1991_7_4_3 = "en1991-1-4/7.4.3", "EN 1991-1-4:2005+A1:2010", "7.4.3", Quoted;
    EN1991_7_11 = "en1991-1-4/7.11", "EN 1991-1-4:2005+A1:2010", "7.11, coefficient as given", Quoted;
    EN1991_MID_HEIGHT = "en1991-1-4/mid-height", "EN 1991-1-4", "no height of the resultant given for walls: mid-height of the panel", Derived;
    EN1990_STR = "en1990/str", "EN 1990", "STR/GEO, 6.10", FromMemory;
    EN1990_EQU = "en1990/equ", "EN 1990, EN 1997-1", "EQU", FromMemory;
    EN1990_UPL = "en1990/upl", "EN 1990, EN 1997-1", "UPL", FromMemory;
    EN1990_GEO = "en1990/geo", "EN 1990, EN 1997-1", "GEO, design approach 1 combination 2", FromMemory;

    ASNZS_SPEED = "as-nzs1170.2/speed", "AS/NZS 1170.2", "site and design wind speed, not below 30 m/s", Quoted;
    ASNZS_PRESSURE = "as-nzs1170.2/pressure", "AS/NZS 1170.2", "design wind pressure", Quoted;
    ASNZS_POROSITY = "as-nzs1170.2/porosity", "AS/NZS 1170.2", "porosity factor Kp", Quoted;
    ASNZS_B2_A_FORMULA = "as-nzs1170.2/b.2-a-formula", "AS/NZS 1170.2", "Table B.2(A), b/c to 5 (seen in the CFE manual 2008)", Published;
    ASNZS_B2_A = "as-nzs1170.2/b.2-a", "AS/NZS 1170.2", "Table B.2(A)", Quoted;
    ASNZS_B2_B = "as-nzs1170.2/b.2-b", "AS/NZS 1170.2", "Table B.2(B)", Quoted;
    ASNZS_B2_C = "as-nzs1170.2/b.2-c", "AS/NZS 1170.2", "Table B.2(C)", Quoted;
    ASNZS_B2_D = "as-nzs1170.2/b.2-d", "AS/NZS 1170.2", "Table B.2(D)", Quoted;
    ASNZS_OFF_CENTRE_ZONES = "as-nzs1170.2/off-centre-zones", "AS/NZS 1170.2", "force of the zones 0.2 b off centre, spread linearly", Derived;
    ASNZS_MID_HEIGHT = "as-nzs1170.2/mid-height", "AS/NZS 1170.2", "no height of the resultant known here: mid-height of the panel", Derived;
    ASNZS_COMBINATIONS = "as-nzs1170.0/combinations", "AS/NZS 1170.0", "1.2G + Wu and 0.9G + Wu", FromMemory;
    CFE_2008 = "cfe-2008/pressure", "CFE, Manual de Diseno de Obras Civiles, Diseno por Viento, 2008", "p. 4.III.68", Published;

    IBC_1605_3_2 = "ibc/1605.3.2", "IBC", "1605.3.2 (1605.2 from 2021), one-third increase with the alternative combinations", Published;
    IBC_1605_3_2_WIND = "ibc/1605.3.2-wind", "IBC", "1605.3.2, D + 0.6 omega W, omega = 1.3 with a stress increase, else 1", FromMemory;
    IBC_1806_2 = "ibc-2012/1806.2", "IBC 2012", "Table 1806.2", Published;
    IBC_1806_3_4 = "ibc/1806.3.4", "IBC", "1806.3.4", Quoted;
    IBC_1807_3_2_1 = "ibc/1807.3.2.1", "IBC", "1807.3.2.1, Eq. 18-1", Published;
    IBC_1807_3_2_2 = "ibc/1807.3.2.2", "IBC", "1807.3.2.2, Eqs. 18-2, 18-3", Quoted;
    ASABE_SPACING = "asabe-ep486/spacing", "ASABE EP486.2/.3", "spacing of posts", Published;
    AWPA_UC4B = "ibc/1807.3.1", "IBC", "1807.3.1, AWPA U1 Use Category 4B", Published;
    IBC_1807_3_2_3 = "ibc/1807.3.2.3", "IBC", "1807.3.2.3", Published;
    IBC_1807_3_3 = "ibc/1807.3.3", "IBC", "1807.3.3", FromMemory;

    NCDOT_DEFAULT_SOIL = "ncdot-2018/default-soil", "NCDOT 2018", "default soil", Published;
    FHWA_SAND_STIFFNESS = "fhwa-hi-97-013/sand-stiffness", "FHWA-HI-97-013", "Kh of sand, after Terzaghi", Quoted;
    API_SAND_STIFFNESS = "api-rp-2a/sand-stiffness", "API RP 2A", "k of sand by friction angle, read off its chart", Quoted;
    IBC_FRICTION = "ibc/1810.3.3.1.4", "IBC", "1810.3.3.1.4, a sixth of the bearing, at most 500 psf", Quoted;
    ALPHA_METHOD = "alpha-method", "API RP 2A, drilled-shaft practice", "alpha of undrained friction", FromMemory;
    GEC10_ALPHA = "fhwa-gec-10/alpha", "FHWA-NHI-18-024 (GEC-10)", "alpha of drilled shafts by su of CIUC tests", FromMemory;
    BETA_METHOD = "beta-method", "NAVFAC DM-7.2", "K sigma' tan delta", FromMemory;
    BREAKOUT = "meyerhof-adams-1968", "Meyerhof and Adams 1968", "circular plate in sand (as in Das, Principles of Foundation Engineering, Ex. 4.7)", FromMemory;
    WOOD_BOND = "hoyle-woeste/bond", "Hoyle and Woeste 1989", "p. 336, treated wood in concrete", Quoted;
    ADFREEZE_ON_STEEL = "domaschuk/adfreeze", "Domaschuk, Frost heave forces on embedded structural units", "measured on steel in silt", Quoted;
    CFEM_ADFREEZE = "cfem/adfreeze", "Canadian Foundation Engineering Manual, 4th ed.", "adfreeze, after Penner", Quoted;
    FROST_DEPTH = "aldrich-paynter-1953", "Aldrich and Paynter 1953", "Stefan and modified Berggren formulas", Published;
    EN1990_ANNEX_D = "en1990/annex-d", "EN 1990", "Annex D, D.7, Table D.1", Quoted;
    TOLERANCE_LIMIT = "tolerance-limit", "ASTM D2915, ISO 16269-6", "one-sided tolerance limit, normal", FromMemory;
    EN14358 = "en14358", "EN 14358:2016", "3.2.2, lognormal tolerance limit at 75 %", FromMemory;
    EN1997_CORRELATION = "en1997/a.9", "EN 1997-1", "Table A.9, correlation factors of static load tests", Quoted;
    EN1997_GROUND_TESTS = "en1997/a.10", "EN 1997-1", "Table A.10, correlation factors of ground test profiles", Quoted;
    WILSON = "wilson-1927", "Wilson 1927", "score interval of a proportion", Derived;
    LOG_SLOPE = "log-slope", "Slope in logarithms", "central difference over 1/(1 + h) to 1 + h", Derived;
    WELCH = "welch", "Welch 1947, Satterthwaite 1946", "difference of two means", FromMemory;
    PROOF_LOAD = "proof-load", "ASTM D3689, D3966", "proof at 1.0 to 1.5, sideways to 2.0 times the load", FromMemory;
    PROVED_SHARE = "proved-share", "n proof loads stood", "share (1 - confidence)^(1/n), Bernoulli trials", Derived;
    LEAN_SPREAD = "lean-spread", "Flexure by shear and moment at grade", "bound over every even and linear spread of the wind", Derived;
    GROWING_SERIES = "growing-series", "Beam on springs that grow with depth", "power series", Derived;
    CONCRETE_WEIGHT = "practice/concrete-weight", "Plain concrete", "145 lb per cubic foot; told as 145 to 150", Quoted;
    BAG_YIELDS = "practice/bag-yields", "Packaged concrete mix", "133.3 lb of dry mix per cubic foot; several guides", Quoted;
    AUGER_SIZES = "practice/auger-sizes", "Augers for post holes", "stock diameters", CommonPractice;
    BROMS_CLAY = "broms-1964a", "Broms 1964a", "cohesive soil, free head (as in Reese and Van Impe, App. A)", Published;
    BROMS_CLAY_RESTRAINED = "broms-1964a/restrained", "Broms 1964a", "cohesive soil, restrained head", FromMemory;
    BROMS_SAND = "broms-1964b", "Broms 1964b", "cohesionless soil, free head", Quoted;
    BROMS_SAND_RESTRAINED = "broms-1964b/restrained", "Broms 1964b", "cohesionless soil, restrained head, short (Fundamentals of Foundation Engineering, eqs. 6.121, 6.122)", Published;
    BROMS_SAND_RESTRAINED_LONG = "broms-1964b/restrained-long", "Broms 1964b", "cohesionless soil, restrained head, post yields", FromMemory;
    BROMS_INTERMEDIATE = "broms/intermediate", "Statics of Broms' reactions", "restrained head that yields while the ground fails", Derived;
    UFC_LOAD_FACTORS = "ufc-3-220-20/6-55", "UFC 3-220-20 (16 Jan 2025)", "eqs. 6-55, 6-56, load factors 1.5 dead, 2.0 live", Quoted;
    UFC_SPACING = "ufc-3-220-20/6-6.5", "UFC 3-220-20 (16 Jan 2025)", "6-6.5, spacing of a row across the load", Quoted;
    UFC_REDUCED = "ufc-3-220-20/6-57", "UFC 3-220-20 (16 Jan 2025)", "eqs. 6-57 to 6-65", Quoted;
    HANSEN = "brinch-hansen-1961", "Brinch Hansen 1961", "Bulletin 12, pp. 5-9", Quoted;
    RIGID_PLASTIC = "rigid-plastic", "Statics of a rigid post in plastic ground", "", Derived;
    API_SAND = "api-rp-2a/sand", "API RP 2A", "sand p-y curve; A = max(3 - 0.8 z/b, 0.9) static, 0.9 cyclic from memory", FromMemory;
    MATLOCK_CLAY = "matlock-soft-clay", "Matlock, soft clay", "p-y curve, static and cyclic", FromMemory;
    STIFF_CLAY = "stiff-clay-dry", "Stiff clay without free water", "p-y curve", FromMemory;
    VESIC = "vesic", "Vesic", "subgrade modulus from a soil modulus", FromMemory;
    PLASTIC_SPRINGS = "plastic-springs", "Elastic springs up to a limit", "3 Kp sigma' b (Broms) and the graded pressure of clay", Derived;
    BEAM_COLUMN = "beam-column", "Beam-column on springs", "Hermite elements, two Gauss points, more where the reaction has kinks; checked by boundary-value solutions", Derived;
    HETENYI = "hetenyi/finite", "Hetenyi", "finite beam on constant springs; forms from memory, confirmed against an exact solution", Derived;
    MATLOCK_REESE = "matlock-reese", "Matlock and Reese", "coefficients of a long pile, computed", Derived;
    BROMS_FACTOR = "broms/factor", "NCHRP Report 494, discussion", "overall factor of 1.5 on overturning", Published;
    FHWA_LENGTH_CLASS = "fhwa-hi-97-013/length-class", "FHWA-HI-97-013", "9.7.3.2, short and long piles", Quoted;
    BELOW_GRADE = "rigid-post", "Statics of a rigid post, ground stiffness growing with depth", "", Derived;

    SPREAD_BLOCK = "spread-block", "Statics of a spread footing", "as in a filed permit calculation", Published;

    NDS_4A = "nds/4a", "NDS Supplement", "Table 4A", FromMemory;
    NDS_4B = "nds/4b", "NDS Supplement", "Table 4B", Quoted;
    NDS_4D = "nds/4d", "NDS Supplement", "Table 4D", FromMemory;
    NDS_FACTORS = "nds/4.3", "NDS", "Table 4.3.1; CD, Ct, Ci, CL", FromMemory;
    NDS_3_3 = "nds/3.3", "NDS", "3.3", FromMemory;
    NDS_3_4 = "nds/3.4", "NDS", "3.4.2", FromMemory;
    AISC_F8 = "aisc360/f8", "AISC 360", "F8, Mn = Fy Z", Quoted;
    AISC_F8_LOCAL_BUCKLING = "aisc360/f8-local-buckling", "AISC 360", "F8, noncompact and slender walls", FromMemory;
    NDS_LRFD = "nds/lrfd", "NDS", "Appendix N, KF, phi, lambda", FromMemory;
    DRESSED_SIZES = "nds/dressed-sizes", "NDS Supplement", "Tables 1A, 1B, dressed sizes", Quoted;
    FENCE_PIPE = "astm-f1043/pipe", "ASTM F1083, F1043", "sizes and yield of fence pipe", FromMemory;
    EN1995_BENDING = "en1995/bending", "EN 1995-1-1, EN 338", "3.2, 6.1.6, 6.1.7, classes of EN 338:2016", FromMemory;
    EN1993_CHS = "en1993/chs", "EN 1993-1-1", "Table 5.2, 6.2.5, 6.2.6, round hollow sections", FromMemory;
    AISC_F7 = "aisc360/f7", "AISC 360", "F7, square hollow sections; b of B4.1b", FromMemory;
    AISC_G4 = "aisc360/g4", "AISC 360", "G4 (G5 before 2016), square hollow sections", FromMemory;
    EN1993_SHS = "en1993/shs", "EN 1993-1-1", "Table 5.2, 6.2.5, 6.2.6, square hollow sections", FromMemory;
    EN1993_5_LOSS = "en1993-5/table-4-1", "EN 1993-5", "Table 4-1, loss in undisturbed natural soil, 50 years", FromMemory;
    NDS_ROUND = "nds/6", "NDS", "chapter 6, 3.3, 3.4: round timber, fv = 4V/(3A)", FromMemory;
    ADM_BENDING = "adm/f", "Aluminum Design Manual 2020", "chapters F and G, yielding and rupture, omega 1.65 and 1.95", FromMemory;
    ADM_ALLOYS = "adm/a.4", "Aluminum Design Manual 2020", "Tables A.4.1, A.4.3, 6063-T6 and 6061-T6", FromMemory;
    SQUARE_TUBES = "astm-a500/tubes", "ASTM A500, AISC Manual", "sizes of square tube, design walls, 46 ksi", FromMemory;
    ALUMINIUM_TUBES = "practice/aluminium-posts", "Aluminium fence posts as sold", "2 and 2-1/2 in square, 1/8 in wall", FromMemory;
    AISC_E3 = "aisc360/e3", "AISC 360", "E3, E7, columns of round tube", FromMemory;
    AISC_H1 = "aisc360/h1", "AISC 360", "H1-1a, H1-1b; K = 2.1 of the commentary", FromMemory;
    NDS_3_9_2 = "nds/3.9.2", "NDS", "3.7.1, 3.9.2, Appendix G", FromMemory;
    AISC_G5 = "aisc360/g5", "AISC 360", "G5 (G6 before 2016)", FromMemory;

    ASTM_F567_5_1 = "astm-f567/5.1", "ASTM F567-07", "5.1 (4 ft base height quoted from an ordinance)", Quoted;
    PRACTICE_TWO_FEET = "practice/two-feet", "US city and trade guidance", "two-foot hole", Quoted;
    PRACTICE_THIRD_OF_HEIGHT = "practice/third-of-height", "Fence trade guidance", "a third of the height", Quoted;
    PRACTICE_THIRD_OF_POST = "practice/third-of-post", "Fence trade guidance", "a third of the post", Quoted;
    PRACTICE_QUARTER_OF_POST = "practice/quarter-of-post", "UK self-build guidance", "a quarter of the post", Quoted;
    UTILITY_POLES = "practice/utility-poles", "Lineman's and Cableman's Handbook, 5th ed.", "10 % + 2 ft, at least 5 ft", Quoted;
}
