//! One printed row for each refrigerant, to work the formula against.

use satline::Refrigerant;

/// A row of a published table as printed: the temperature and the absolute pressure of saturation.
pub struct PrintedRow {
    /// Refrigerant of the row.
    pub refrigerant: Refrigerant,
    /// File in `tables/published`.
    pub table: &'static str,
    /// Where it is printed.
    pub source: &'static str,
    /// Temperature as printed.
    pub temperature: &'static str,
    /// Absolute pressure as printed; of a blend, on its dew line.
    pub pressure: &'static str,
}

const fn row(refrigerant: Refrigerant, [table, source, temperature, pressure]: [&'static str; 4]) -> PrintedRow {
    PrintedRow { refrigerant, table, source, temperature, pressure }
}

const ASHRAE: &str = "ASHRAE Fundamentals 2021, ch. 29, Table 5, normal boiling point";
const LEMMON_2003: &str = "Lemmon 2003, Table V, p. 998, dew line";

/// The rows; the tests find each in its file.
pub const ROWS: [PrintedRow; 16] = [
    row(
        Refrigerant::R134a,
        ["r134a-tillner-roth-baehr-1994.csv", "Tillner-Roth & Baehr 1994, Table 8, p. 696 ff.", "300 K", "0.70282 MPa"],
    ),
    row(Refrigerant::R1234yf, ["ashrae-2021-table5.csv", ASHRAE, "-29.45 °C", "101.325 kPa"]),
    row(
        Refrigerant::R744,
        ["r744-span-wagner-1996.csv", "Span & Wagner 1996, Table 34, p. 1560 ff.", "260 K", "2.4188 MPa"],
    ),
    row(
        Refrigerant::R152a,
        ["r152a-outcalt-mclinden-1996.csv", "Outcalt & McLinden 1996, Table 6, p. 616 ff.", "0 °C", "0.263992 MPa"],
    ),
    row(Refrigerant::R290, ["r290-lemmon-2009.csv", "Lemmon et al. 2009, Table A1, p. 3175", "50 °C", "1.7133 MPa"]),
    row(Refrigerant::R12, ["ashrae-2021-table5.csv", ASHRAE, "-29.752 °C", "101.325 kPa"]),
    row(
        Refrigerant::R600a,
        ["r600a-buecker-wagner-2006.csv", "Bücker & Wagner 2006, Table 46, p. 996", "300 K", "0.37000 MPa"],
    ),
    row(Refrigerant::R22, ["r22-moran-shapiro-a7.csv", "Moran et al., Table A-7, p. 901", "0 °C", "4.9811 bar"]),
    row(Refrigerant::R1234ze, ["ashrae-2021-table5.csv", ASHRAE, "-18.95 °C", "101.325 kPa"]),
    row(
        Refrigerant::R32,
        ["r32-tillner-roth-yokozeki-1997.csv", "Tillner-Roth & Yokozeki 1997, Table 12, p. 1293", "0 °C", "813.10 kPa"],
    ),
    row(
        Refrigerant::R125,
        ["r125-lemmon-jacobsen-2005.csv", "Lemmon & Jacobsen 2005, Table 9, p. 104", "273.15 K", "0.67052 MPa"],
    ),
    row(
        Refrigerant::R143a,
        ["r143a-lemmon-jacobsen-2000.csv", "Lemmon & Jacobsen 2000, table on p. 541", "0 °C", "0.61967 MPa"],
    ),
    row(Refrigerant::R404A, ["r404a-lemmon-2003.csv", LEMMON_2003, "300 K", "1.3034 MPa"]),
    row(Refrigerant::R407C, ["r407c-lemmon-2003.csv", LEMMON_2003, "300 K", "1.0757 MPa"]),
    row(Refrigerant::R410A, ["r410a-lemmon-2003.csv", LEMMON_2003, "300 K", "1.7351 MPa"]),
    row(Refrigerant::R507A, ["r507a-lemmon-2003.csv", LEMMON_2003, "300 K", "1.3450 MPa"]),
];

/// The row of a refrigerant.
pub fn of(refrigerant: Refrigerant) -> Option<&'static PrintedRow> {
    ROWS.iter().find(|row| row.refrigerant == refrigerant)
}
