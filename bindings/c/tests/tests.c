/* satline from C: every function once, and every border that C alone can reach. Linked with the static library by `check`, which runs it
 * under valgrind too. Its argument is the root of the project. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "satline.h"

static int failures = 0;

#define EXPECT(condition)                                                      \
    do {                                                                       \
        if (!(condition)) {                                                    \
            fprintf(stderr, "line %d: not so: %s\n", __LINE__, #condition);    \
            failures += 1;                                                     \
        }                                                                      \
    } while (0)

/* Whether a call was refused with this status and code; frees the error. */
static int refused(SatlineStatus found, SatlineStatus status, SatlineError *error, const char *code) {
    const char *named = satline_error_code(error);
    int as_said = found == status && named != NULL && strcmp(named, code) == 0;
    if (!as_said) {
        fprintf(stderr, "status %d, code %s\n", (int)found, named == NULL ? "none" : named);
    }
    as_said = as_said && strlen(satline_error_message(error)) > 0 && strstr(satline_error_json(error), code) != NULL;
    satline_error_free(error);
    return as_said;
}

static char *read_file(const char *root, const char *name) {
    char path[4096];
    snprintf(path, sizeof path, "%s/%s", root, name);
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        exit(2);
    }
    fseek(file, 0, SEEK_END);
    size_t length = (size_t)ftell(file);
    rewind(file);
    char *text = malloc(length + 1);
    if (text == NULL || fread(text, 1, length, file) != length) {
        perror(path);
        exit(2);
    }
    text[length] = '\0';
    fclose(file);
    return text;
}

static SatlineRefrigerant named(const char *name) {
    SatlineRefrigerant found = 0;
    EXPECT(satline_refrigerant(name, &found, NULL) == SATLINE_STATUS_ANSWERED);
    return found;
}

static void a_property_there_and_back(void) {
    double kelvin = 0.0, pa = 0.0;
    SatlineError *error = NULL;
    /* a blend, whose two lines differ; the state that the tests of bindings/json keep */
    SatlineRefrigerant r407c = named("R-407C");
    EXPECT(satline_dew_temperature(r407c, 500000.0, &kelvin, &error) == SATLINE_STATUS_ANSWERED);
    EXPECT(kelvin == 275.51013386205864 && error == NULL);
    EXPECT(satline_dew_pressure(r407c, kelvin, &pa, &error) == SATLINE_STATUS_ANSWERED);
    EXPECT(fabs(pa - 500000.0) < 1e-4); /* rounding: 1 part in 5e9 */
    EXPECT(satline_bubble_temperature(r407c, 500000.0, &kelvin, &error) == SATLINE_STATUS_ANSWERED);
    EXPECT(kelvin == 269.2952459978911);
    EXPECT(satline_bubble_pressure(r407c, kelvin, &pa, &error) == SATLINE_STATUS_ANSWERED);
    EXPECT(fabs(pa - 500000.0) < 1e-4);

    /* 13 bar of gauge pressure, 99 kPa of air, 40 degC */
    EXPECT(satline_subcooling(named("r134a"), 1300000.0, 99000.0, 313.15, &kelvin, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(kelvin == 12.39350215681111);
    EXPECT(satline_superheat(named("r134a"), 1300000.0, 99000.0, 313.15, &pa, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(pa == -kelvin);
    EXPECT(satline_air_pressure(0.0, &pa, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(pa == 101325.0);
}

static void what_is_no_property_is_refused(void) {
    double kelvin = 1.0;
    SatlineError *error = NULL;
    SatlineRefrigerant r134a = named("R-134a"), found = 7;
    SatlineStatus status = satline_dew_temperature(r134a, 6e6, &kelvin, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "supercritical"));
    EXPECT(isnan(kelvin));
    status = satline_superheat(r134a, -2e5, 101325.0, 280.0, &kelvin, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "below-vacuum"));
    status = satline_dew_pressure(r134a, NAN, &kelvin, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "out-of-range"));
    status = satline_air_pressure(99999.0, &kelvin, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "implausible"));
    status = satline_dew_pressure(12345, 280.0, &kelvin, &error);
    EXPECT(refused(status, SATLINE_STATUS_NO_REFRIGERANT, error, "no-refrigerant"));
    status = satline_dew_pressure(r134a, 280.0, NULL, &error);
    EXPECT(strcmp(satline_error_input(error), "absolute_pa") == 0);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));
    /* nobody asks why */
    EXPECT(satline_dew_pressure(r134a, 280.0, NULL, NULL) == SATLINE_STATUS_NULL);

    status = satline_refrigerant("R-13", &found, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "unknown-refrigerant"));
    EXPECT(found == UINT32_MAX);
    status = satline_refrigerant("", &found, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "unknown-refrigerant"));
    status = satline_refrigerant("R-134a\xff", &found, &error);
    EXPECT(refused(status, SATLINE_STATUS_NOT_UTF8, error, "not-utf-8"));
    status = satline_refrigerant(NULL, &found, &error);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));
}

enum { ROWS = 1000 };

static void a_column_is_its_rows(void) {
    static double gauge[ROWS], air[ROWS], line[ROWS], superheat[ROWS], subcooling[ROWS], kelvin[ROWS], pa[ROWS];
    SatlineRefrigerant r1234yf = named("R-1234yf");
    size_t answered = 0, expected = 0;
    for (int i = 0; i < ROWS; i += 1) {
        /* from below vacuum to above the critical pressure; every seventh was not read */
        gauge[i] = i % 7 == 0 ? NAN : -2e5 + 4e3 * i;
        air[i] = 101325.0 - i;
        line[i] = 260.0 + 0.1 * i;
    }
    EXPECT(satline_superheats(r1234yf, gauge, air, ROWS, line, superheat, ROWS, &answered, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_subcoolings(r1234yf, gauge, air, ROWS, line, subcooling, ROWS, NULL, NULL) == SATLINE_STATUS_ANSWERED);
    for (int i = 0; i < ROWS; i += 1) {
        double one = 0.0;
        int is_one = satline_superheat(r1234yf, gauge[i], air[i], line[i], &one, NULL) == SATLINE_STATUS_ANSWERED;
        expected += is_one;
        EXPECT(is_one ? superheat[i] == one : isnan(superheat[i]));
        is_one = satline_subcooling(r1234yf, gauge[i], air[i], line[i], &one, NULL) == SATLINE_STATUS_ANSWERED;
        EXPECT(is_one ? subcooling[i] == one : isnan(subcooling[i]));
    }
    EXPECT(answered == expected && answered > ROWS / 2 && answered < ROWS);

    EXPECT(satline_dew_temperatures(r1234yf, gauge, kelvin, ROWS, &answered, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_dew_pressures(r1234yf, kelvin, pa, ROWS, &expected, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(answered == expected && answered > ROWS / 2);
    for (int i = 0; i < ROWS; i += 1) {
        EXPECT(isnan(kelvin[i]) ? isnan(pa[i]) : fabs(pa[i] / gauge[i] - 1.0) < 1e-9); /* rounding */
    }
    /* a blend, whose two lines differ */
    SatlineRefrigerant r407c = named("R-407C");
    double one = 0.0;
    EXPECT(satline_dew_temperatures(r407c, gauge, kelvin, ROWS, NULL, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_dew_temperature(r407c, gauge[501], &one, NULL) == SATLINE_STATUS_ANSWERED && kelvin[501] == one);
    EXPECT(satline_dew_pressures(r407c, line, pa, ROWS, NULL, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_dew_pressure(r407c, line[501], &one, NULL) == SATLINE_STATUS_ANSWERED && pa[501] == one);
    EXPECT(satline_bubble_temperatures(r407c, gauge, kelvin, ROWS, NULL, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_bubble_temperature(r407c, gauge[501], &one, NULL) == SATLINE_STATUS_ANSWERED && kelvin[501] == one);
    EXPECT(satline_bubble_pressures(r407c, line, pa, ROWS, NULL, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(satline_bubble_pressure(r407c, line[501], &one, NULL) == SATLINE_STATUS_ANSWERED && pa[501] == one);
}

static void a_column_that_cannot_be_is_refused(void) {
    double kelvin[4] = {280.0, 290.0, 300.0, 310.0}, pa[4] = {0.0, 0.0, 0.0, 0.0};
    SatlineRefrigerant r134a = named("R-134a");
    SatlineError *error = NULL;
    size_t answered = 9;
    EXPECT(satline_dew_pressures(r134a, NULL, NULL, 0, &answered, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(answered == 0);
    SatlineStatus status = satline_dew_pressures(r134a, kelvin, kelvin, 4, &answered, &error);
    EXPECT(refused(status, SATLINE_STATUS_BAD_ARRAY, error, "overlap"));
    EXPECT(kelvin[0] == 280.0);
    status = satline_dew_pressures(r134a, kelvin, NULL, 4, &answered, &error);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));
    status = satline_dew_pressures(r134a, kelvin, pa, SIZE_MAX, &answered, &error);
    EXPECT(refused(status, SATLINE_STATUS_BAD_ARRAY, error, "too-long"));
    status = satline_dew_pressures(99, kelvin, pa, 4, &answered, &error);
    EXPECT(refused(status, SATLINE_STATUS_NO_REFRIGERANT, error, "no-refrigerant"));
    /* two air pressures for four rows */
    status = satline_superheats(r134a, pa, pa, 2, kelvin, pa + 2, 2, &answered, &error);
    EXPECT(status == SATLINE_STATUS_ANSWERED && error == NULL);
    status = satline_superheats(r134a, kelvin, kelvin, 2, kelvin, pa, 4, &answered, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "impossible"));
}

/* The report byte for byte as the Rust example prints it. */
static void a_report_is_that_of_the_example(const char *root, const char *name) {
    char path[256];
    snprintf(path, sizeof path, "bindings/json/tests/requests/%s.json", name);
    char *request = read_file(root, path);
    snprintf(path, sizeof path, "examples/read_gauges/%s.json", name);
    char *printed = read_file(root, path);
    SatlineSession *session = satline_session_new();
    for (int twice = 0; twice < 2; twice += 1) {
        char *report = NULL;
        EXPECT(satline_session_report(session, request, &report, NULL) == SATLINE_STATUS_ANSWERED);
        EXPECT(report != NULL && strcmp(report, printed) == 0);
        satline_text_free(report);
    }
    satline_session_free(session);
    free(printed);
    free(request);
}

static void texts_and_sessions(const char *root) {
    SatlineSession *session = satline_session_new();
    SatlineError *error = NULL;
    char *text = NULL;
    EXPECT(satline_names(&text, NULL) == SATLINE_STATUS_ANSWERED);
    /* the numbers of refrigerants are places in this list */
    char first[32] = "";
    sscanf(text, "{\"refrigerants\":[\"%31[^\"]", first);
    EXPECT(named(first) == 0);
    satline_text_free(text);

    EXPECT(satline_properties("{\"refrigerant\": \"R-134a\", \"temperature\": \"86 \xc2\xb0" "F\"}", &text, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(strstr(text, "\"dew_pressure_pa\":770196.3030755062") != NULL);
    satline_text_free(text);

    SatlineStatus status = satline_session_report(session, "{\"refrigerant\": \"R-134a\", \"values\": {\"low-side\": \"22\"}}", &text, &error);
    EXPECT(text == NULL && strcmp(satline_error_input(error), "low-side") == 0);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "unit-missing"));
    status = satline_session_report(session, "", &text, &error);
    EXPECT(satline_error_input(error) == NULL);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "invalid-json"));
    /* a NUL that JSON writes stays in its text */
    status = satline_session_report(session, "{\"refrigerant\": \"R-134a\", \"values\": {\"low-side\": \"22\\u0000psi\"}}", &text, &error);
    EXPECT(refused(status, SATLINE_STATUS_REFUSED, error, "unit-unknown"));
    status = satline_session_report(session, "\xc0\xaf", &text, &error);
    EXPECT(refused(status, SATLINE_STATUS_NOT_UTF8, error, "not-utf-8"));
    status = satline_session_report(NULL, "{}", &text, &error);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));
    status = satline_session_report(session, NULL, &text, &error);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));
    status = satline_session_report(session, "{}", NULL, &error);
    EXPECT(refused(status, SATLINE_STATUS_NULL, error, "null"));

    /* a page, with its cautions */
    char *demo = read_file(root, "bindings/json/tests/requests/demo.json");
    char *asked = malloc(strlen(demo) + 64);
    sprintf(asked, "{\"request\": %s, \"language\": \"spanish\"}", demo);
    EXPECT(satline_session_page(session, asked, &text, NULL) == SATLINE_STATUS_ANSWERED);
    EXPECT(strstr(text, "<html lang=\"es\">") != NULL && strstr(text, "guantes") != NULL);
    satline_text_free(text);
    free(asked);
    free(demo);

    satline_session_free(session);
    satline_session_free(NULL);
    satline_text_free(NULL);
    satline_error_free(NULL);
    EXPECT(satline_error_code(NULL) == NULL && satline_error_input(NULL) == NULL);
}

int main(int count, char **arguments) {
    const char *root = count > 1 ? arguments[1] : ".";
    EXPECT(satline_abi_version() == SATLINE_ABI_VERSION);
    a_property_there_and_back();
    what_is_no_property_is_refused();
    a_column_is_its_rows();
    a_column_that_cannot_be_is_refused();
    a_report_is_that_of_the_example(root, "demo");
    texts_and_sessions(root);
    if (failures > 0) {
        fprintf(stderr, "%d failures\n", failures);
        return 1;
    }
    puts("satline from C: ok");
    return 0;
}
