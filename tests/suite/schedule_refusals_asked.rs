//! The example `schedule`: what is wrong in what more a job file asks, and in
//! what posts are set in and made of, is told as everything else.

use super::schedule_refusals::{check, said};

#[test]
fn each_refusal_of_what_more_is_asked_names_field_value_and_what_is_allowed() {
    for (old, new, parts) in [
        (
            "[soil]",
            "[frost]\ndepth = \"-1 in\"\n[soil]",
            &["line 18", "frost.depth = \"-1 in\"", "0 in to"][..],
        ),
        (
            "[soil]",
            "[frost]\n[soil]",
            &["line 17", "frost.depth is missing", "ft, in"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\ngrip = \"ice\"\n[soil]",
            &["frost.grip = \"ice\"", "\"fine-grained on steel\""],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\ngrip = \"fine-grained\"\nstress = \"5 psi\"\n[soil]",
            &["line 19", "frost.grip", "stress: one of them"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nstress = \"500 psi\"\n[soil]",
            &["frost.stress = \"500 psi\"", "0 psf to"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nremedy = \"salt\"\n[soil]",
            &[
                "frost.remedy = \"salt\"",
                "\"smooth sleeve\", \"drained gravel\"",
            ],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nfriction = \"tested\"\n[soil]",
            &["frost.friction_stress is missing", "psf"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nfriction_stress = \"50 psf\"\n[soil]",
            &["frost.friction_stress", "\"allowable\" or \"tested\""],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nfriction = \"allowable\"\nfriction_stress = \"9 MPa\"\n[soil]",
            &["line 20", "frost.friction_stress = \"9 MPa\"", "psf"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\nconcrete_weight = \"10 pcf\"\n[soil]",
            &["frost.concrete_weight = \"10 pcf\"", "60 psf/ft to 250"],
        ),
        (
            "[soil]",
            "[frost]\ndepth = \"30 in\"\npost_weight = \"-5 lb\"\n[soil]",
            &["frost.post_weight = \"-5 lb\"", "0 lb to"],
        ),
        (
            "[soil]",
            "[frost]\ndepht = \"30 in\"\n[soil]",
            &["frost.depht: no such field", "depth"],
        ),
        (
            "[soil]",
            "[lean]\n[soil]",
            &["line 17", "lean.growing is missing", "constant"],
        ),
        (
            "[soil]",
            "[lean]\ngrowing = \"60 pci\"\nconstant = \"700 psi\"\n[soil]",
            &["lean.growing = \"60 pci\"", "one of them"],
        ),
        (
            "[soil]",
            "[lean]\ngrowing = \"700 psi\"\n[soil]",
            &["lean.growing = \"700 psi\"", "pci"],
        ),
        (
            "[soil]",
            "[lean]\nconstant = \"1 Pa\"\n[soil]",
            &["lean.constant = \"1 Pa\"", "psf to"],
        ),
        (
            "[soil]",
            "[lean]\ngrowing = \"60 pci\"\nlimit = \"1/2\"\n[soil]",
            &["lean.limit = \"1/2\"", "0.001 to 0.25"],
        ),
        (
            "[soil]",
            "[lean]\ngrowing = \"60 pci\"\nrigidity = \"1 lb·in²\"\n[soil]",
            &["lean.rigidity = \"1 lb·in²\"", " to "],
        ),
        (
            "[soil]",
            "[uplift]\nfriction = \"none\"\n[soil]",
            &["uplift.force is missing", "kip"],
        ),
        (
            "[soil]",
            "[uplift]\nforce = \"-1 lb\"\n[soil]",
            &["uplift.force = \"-1 lb\"", "0 lb to"],
        ),
        (
            "[soil]",
            "[uplift]\nforce = \"1 lb\"\nwood_bond = \"maybe\"\n[soil]",
            &["uplift.wood_bond = \"maybe\"", "\"false\", \"true\""],
        ),
        (
            "[soil]",
            "[uplift]\nforce = \"1 lb\"\nwood_bond = true\nbond = \"30 psi\"\n[soil]",
            &["uplift.bond = \"30 psi\"", "one of them"],
        ),
        (
            "[soil]",
            "[uplift]\nforce = \"1 lb\"\nbond = \"9 ksi\"\n[soil]",
            &["uplift.bond = \"9 ksi\"", "0 psi to 1000 psi"],
        ),
        (
            "[soil]",
            "[axial]\nlength_factor = 20\n[soil]",
            &["axial.length_factor = 20", "2 to 10"],
        ),
        (
            "[soil]",
            "[axial]\nfc = \"800 psi\"\n[soil]",
            &["axial.emin is missing", "ksi"],
        ),
        (
            "[soil]",
            "[axial]\nfc = \"800 psi\"\nemin = \"1 psi\"\n[soil]",
            &["axial.emin = \"1 psi\"", "psi to"],
        ),
        (
            "[soil]",
            "[axial]\ncapacity = \"0 lb\"\n[soil]",
            &["axial.capacity = \"0 lb\"", "1 lb to"],
        ),
        (
            "[soil]",
            "[materials]\n[soil]",
            &["materials.bag is missing", "poured concrete"],
        ),
        (
            "[soil]",
            "[materials]\nbag = \"70 lb\"\n[soil]",
            &["materials.bag = \"70 lb\"", "bag_yields"],
        ),
        (
            "[soil]",
            "[materials]\nbag = \"80 lb\"\nwaste = 2\n[soil]",
            &["materials.waste = 2", "0 to 1"],
        ),
        (
            "[soil]",
            "[materials]\nbag = \"80 lb\"\nbase = \"4 ft\"\n[soil]",
            &["materials.base = \"4 ft\"", "0 in to 36 in"],
        ),
        (
            "[soil]",
            "[materials]\nbag = \"80 lb\"\nbag_yields = \"0 ft³\"\n[soil]",
            &["materials.bag_yields = \"0 ft³\"", "ft³ to"],
        ),
        (
            "[soil]",
            "[materials]\nbag = \"80 lb\"\nfoam = { bag = \"40 lb\" }\n[soil]",
            &["materials.foam.bag_yields is missing", "ft³"],
        ),
        (
            "[soil]\nclass = 4\n[post]\n",
            "[materials]\nbag = \"80 lb\"\n[soil]\nclass = 4\n[post]\nset_in = \"foam\"\n",
            &["line 17", "materials.foam is missing", "expanding foam"],
        ),
        (
            "hole =",
            "set_in = \"mud\"\nhole =",
            &["post.set_in = \"mud\"", "\"tamped soil\", \"driven\""],
        ),
        (
            "hole =",
            "set_in = \"driven\"\nhole =",
            &["post.hole", "driven post has no hole"],
        ),
        (
            "hole = \"18 in\"",
            "set_in = \"gravel\"\nhole_shape = \"none\"",
            &["post.set_in = \"gravel\"", "hole_shape is \"none\""],
        ),
        (
            "hole = \"18 in\"",
            "set_in = \"gravel\"\nhole = \"3 in\"",
            &["post.hole = \"3 in\""],
        ),
        (
            "hole =",
            "rest_days = 3\nhole =",
            &["post.rest_days_needed is missing", "number"],
        ),
        (
            "hole =",
            "rest_days = -3\nrest_days_needed = 3\nhole =",
            &["post.rest_days = -3", "0 to 1000"],
        ),
        (
            "\"pipe\"",
            "\"square tube\"",
            &["post.size is missing", "ft, in"],
        ),
        (
            "\"pipe\"",
            "\"square tube\"",
            &["post.diameter", "\"pipe\"", "material is \"square tube\""],
        ),
        (
            "\"pipe\"",
            "\"round timber\"",
            &["post.bending is missing", "psi"],
        ),
        (
            "\"pipe\"",
            "\"round timber\"\ncircumference = \"20 in\"",
            &["post.circumference", "one of them"],
        ),
        (
            "\"pipe\"",
            "\"aluminium\"",
            &["post.ultimate is missing", "ksi"],
        ),
        (
            "\"pipe\"",
            "\"aluminium\"\nalloy = \"6061-T6\"",
            &["post.yield", "alloy: one of them"],
        ),
        (
            "\"pipe\"",
            "\"aluminium\"\nalloy = \"7075\"",
            &["post.alloy = \"7075\"", "\"6063-T6\", \"6061-T6\""],
        ),
        (
            "\"pipe\"",
            "\"given strength\"\nallowable_moment = \"0 lb·ft\"\nallowable_shear = \"1 kip\"",
            &["post.allowable_moment = \"0 lb·ft\"", "1 lb·ft to"],
        ),
        (
            "\"pipe\"",
            "\"sleeved vinyl\"",
            &["post.insert is missing", "\"square tube\""],
        ),
        (
            "\"pipe\"",
            "\"sleeved vinyl\"\ninsert = \"pipe\"\nsleeve_size = \"4 in\"\nsleeve_wall = \"0.1 in\"",
            &["post.insert = \"pipe\"", "go into the sleeve"],
        ),
        (
            "\"pipe\"",
            "\"sleeved vinyl\"\ninsert = \"sleeved vinyl\"",
            &["post.insert = \"sleeved vinyl\"", "\"timber\", \"pipe\""],
        ),
        (
            "planned_depth",
            "gate = { material = \"square tube\" }\nplanned_depth",
            &["post.gate.size is missing"],
        ),
    ] {
        check(old, new, parts);
    }
}

/// A bag that is refused is not told of as missing as well.
#[test]
fn a_refused_bag_is_told_of_once() {
    let said = said("[soil]", "[materials]\nbag = \"70 lb\"\n[soil]");
    assert_eq!(said.len(), 1, "{said:#?}");
}
