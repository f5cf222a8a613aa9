//! The works behind the figures of the bench, each cited once; `tables/service` has their rows as printed.

use crate::{Source, Trust};

const fn manual(work: &'static str, locator: &'static str) -> Source {
    Source { work, locator, doi: None, trust: Trust::Excerpt }
}

/// A work of which a third party's summary was read.
const fn summarised(work: &'static str, locator: &'static str) -> Source {
    Source { work, locator, doi: None, trust: Trust::Weak }
}

const fn recalled(work: &'static str) -> Source {
    Source { work, locator: "", doi: None, trust: Trust::FromMemory }
}

/// The vehicle's own label or its maker, as typed in for the job.
pub(super) const GIVEN: Source = Source {
    work: "as given for this job: the label, the maker, the bench",
    locator: "",
    doi: None,
    trust: Trust::Read,
};

pub(super) const LINCOLN_1995: Source = manual("Lincoln Mark VIII 1995, service manual", "refrigerant oil addition");
pub(super) const CADILLAC_1993: Source = manual("Cadillac DeVille 1993, service manual", "oil charge");
pub(super) const GMC_1994: Source = manual("GMC C2500 1994, service manual", "component replacement");
pub(super) const CORVETTE_1997: Source = manual("Chevrolet Corvette 1997, service manual", "oil quantities");
pub(super) const GRAND_AM_1995: Source =
    manual("Pontiac Grand Am 1995 and Chevrolet Cavalier 1998, service manuals", "oil charge");
pub(super) const ASPIRE_1997: Source = manual("Ford Aspire 1997, service manual", "refrigerant oil addition");
pub(super) const MITSUBISHI_2022: Source = manual("Mitsubishi, US service data of 2022", "compressor oil");
pub(super) const XL7_2001: Source = manual("Suzuki XL-7 2001 and Aerio 2003, service manuals", "compressor oil");
pub(super) const GRAND_VITARA_2012: Source = manual("Suzuki Grand Vitara 2012, service manual", "compressor oil");
pub(super) const SUPRA_1995: Source = manual("Toyota Supra 1995, service manual", "p. AC-10");
pub(super) const MDX_2001: Source = manual("Acura MDX 2001, service manual", "compressor oil");
pub(super) const SERVICING_1993: Source = manual(
    "general servicing chapter in a copy of the Volkswagen Corrado 1993 manual",
    "part 84, Nissan and Audi, oil checking",
);
pub(super) const ROGUE_T32: Source = manual("Nissan Rogue T32, service manual", "lubricant");
pub(super) const KIA_2004: Source = manual("Kia Technician Times 7(5), 2004", "compressor oil");
pub(super) const SPECTRA5: Source = manual("Kia Spectra5 2.0 and Hyundai, service manuals", "refrigerant oil");
pub(super) const BOXSTER_2001: Source = manual("Porsche Boxster S 2001, service manual", "compressor oil");
pub(super) const CAYENNE_2009: Source = manual("Porsche Cayenne Turbo 2009, service manual", "compressor oil");
pub(super) const FREELANDER_2002: Source = manual("Land Rover Freelander 2002, service manual", "compressor oil");
pub(super) const SEBRING_2004: Source = manual("Chrysler Sebring 2004, service manual", "oil, worked example");
pub(super) const DAKOTA_2002: Source = manual("Dodge Dakota 2002, service manual", "compressor oil");

pub(super) const FORD_OIL_2010: Source =
    manual("Ford material specification WSS-M2C300-A1, 2010", "specific gravity 0.95 to 1.05 at 15.6/15.6 °C");
pub(super) const POE_SHEET: Source =
    manual("data sheet of one POE oil in a chiller manual, 035-21786-100", "1.023 g/cm³ at 15 °C");
pub(super) const OIL_MODELS: Source = recalled("suppliers' data of PAG and POE compressor oils");
pub(super) const ISO_3448: Source = recalled("ISO 3448, viscosity classes, ±10 % about the grade at 40 °C");
pub(super) const YF_OIL: Source =
    manual("EngineerFix, article \"How to add PAG oil to an A/C compressor\"", "note on R-1234yf; no date shown");
pub(super) const ELECTRIC_OIL: Source = manual(
    "FenderBender, \"Servicing HV compressors\"; AVI OnDemand, \"A/C update, risky business\"; MotoFocus, \"Proper operation of the air conditioning \
     system in hybrid and electric vehicles\"; CarSpecMN, \"Toyota and Lexus hybrid air conditioning, special service requirements\"",
    "oil, insulation and dye; titles as their addresses have them, no dates shown",
);
pub(super) const VAG_OIL: Source =
    manual("Audi TT Quattro Coupe V6 3.2 L, service manual, year not shown", "A/C refrigerant oil (PAG), properties");

pub(super) const CHARGE_ARTICLE: Source =
    manual("Waeco, article \"Today's automotive A/C systems need to be charged with accuracy\"", "no date shown");
pub(super) const CHARGE_PATENT: Source = manual("US patent 10807438, refrigerant charging", "accuracy demanded");
pub(super) const CYLINDERS: Source =
    manual("ACHR News, \"On the level: filling cylinders\", reporting AHRI Guideline K", "");
pub(super) const APPENDIX_A: Source =
    manual("40 CFR Part 82 Subpart B Appendix A, edition of 1 July 1996", "section 7.2, p. 386");
pub(super) const ARMY_2420: Source = manual("US Army TM 5-2420-230-24-1", "p. 19-7");
pub(super) const ARMY_3805: Source = manual("US Army TM 5-3805-291-23-1", "table 1");
pub(super) const ARMY_292: Source = manual("US Army TM 5-3805-292-23", "p. 0093-4");

pub(super) const US_EVACUATION: Source = manual(
    "US service manuals with one text: Ford Festiva 1989, Mazda 929 1993, Mercury Topaz 1994, GMC Yukon 1992",
    "evacuating",
);

pub(super) const J2791: Source =
    summarised("SAE J2791-2019, electronic leak detectors for R-134a", "read in a summary and an extract");
pub(super) const J2913: Source = recalled("SAE J2913-2016, leak detectors for R-1234yf, taken as those of J2791");
pub(super) const J2970: Source = summarised("SAE J2970-2023, leak detectors for tracer gas", "read in a summary");
pub(super) const EU_2006_40: Source =
    manual("Directive 2006/40/EC", "leak limits of type approval, refrigerants above a GWP of 150");
pub(super) const SIEGL_2002: Source = Source {
    work: "W. O. Siegl et al., R-134a emissions from vehicles, Environ. Sci. Technol. 36 (2002) 561-566",
    locator: "abstract",
    doi: None,
    trust: Trust::Excerpt,
};
pub(super) const SAE_2004: Source =
    manual("SAE 2004-01-2256, HFC-134a from light-duty vehicles in California", "abstract");
pub(super) const ARB_HEAVY: Source =
    manual("Contract 06-342 for the California Air Resources Board, heavy-duty vehicles", "abstract");
pub(super) const LAND_ROVER_2020: Source = manual("Land Rover, vehicle handbook 2020", "note on R-1234yf");

pub(super) const FORESTER_2001: Source = manual("Subaru Forester 2001, service manual", "compressor clutch, noise");
pub(super) const CLUTCH_GAPS: Source = manual(
    "Chrysler Pacifica 2008, Acura CL 1999, Ford Taurus SHO 1997, Subaru Forester 2001, Honda Insight 2000 and CR-V, Audi S4 2011",
    "clutch gap, eight clutches; tables/service/clutch-switch-torque.csv",
);
pub(super) const DRIER_SUPPLIERS: Source = manual(
    "MBS Auto Parts, technical tip on the receiver-drier of BMW; Auto Air Warehouse, accumulators and driers",
    "parts suppliers' pages, no dates shown",
);
pub(super) const TIGUAN_2023: Source = manual("VW Tiguan 2023, service manual", "receiver-drier");
pub(super) const OPEN_FOR_DAYS: Source =
    manual("Hyundai Tucson 2009, Acura RDX 2007 and Legend 1993, service manuals", "evacuation");
pub(super) const MINERAL_ON_RINGS: Source = manual(
    "Chevrolet Express 1999, Pontiac Fiero 1988 (p. 1B-17) and a utility vehicle whose maker is not shown, service manuals",
    "O-rings",
);
pub(super) const PAG_ON_RINGS: Source = manual("Geo Tracker 1997 and Daewoo Leganza 2000, service manuals", "O-rings");
pub(super) const OIL_ON_RINGS: Source = manual("Acura 3.5RL 2001, service manual", "O-rings");
pub(super) const LINES: Source =
    manual("Chevrolet Express 1999 and Geo Tracker 1997, service manuals", "handling of lines");
pub(super) const CAPS: Source =
    manual("Oldsmobile Silhouette 1998, GMC Savana 2000, service manuals", "chemical stability");
pub(super) const US_609: Source =
    manual("US EPA, regulatory requirements for MVAC system servicing, January 2021", "section 609");
pub(super) const EU_REFILL: Source = recalled("EU rules on refilling, an abnormal leak is repaired first");
pub(super) const NO_AIR_TEST: Source = manual(
    "Chrysler Voyager 1996, Acura Legend 1993 and 3.5RL 2001, service manuals",
    "no leak test with compressed air",
);
pub(super) const NITROGEN: Source = recalled(
    "dry nitrogen through a regulator; the pressure is the maker's, never above what the low side is made for",
);
pub(super) const TURN_BY_HAND: Source = recalled("makers' advice, about ten turns by hand after the oil is in");
pub(super) const ELECTRIC_UNIT: Source =
    manual("Ford Escape 2022, service manual", "electric compressor, 140 to 350 V");
