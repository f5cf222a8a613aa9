/* satline for C: refrigerant properties and what a car air-conditioning gauge reading means.
 * Units are those of the names: Pa, K, m. bindings/c/README.md describes errors, ownership and threads.
 * Made from the source by `SATLINE_UPDATE=1 cargo test -p satline-c`. */

#ifndef SATLINE_H
#define SATLINE_H

#include <stddef.h>
#include <stdint.h>

/**
 * Version of this interface; it changes when a function or a constant changes its meaning or goes.
 */
#define SATLINE_ABI_VERSION 1

/**
 * Outcome of a call; the values of these constants stay.
 */
enum SatlineStatus
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : int32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Answered.
   */
  SATLINE_STATUS_ANSWERED = 0,
  /**
   * The library refuses a value, or there is no answer to it; satline_error_code says why.
   */
  SATLINE_STATUS_REFUSED = 1,
  /**
   * A pointer that must not be is NULL.
   */
  SATLINE_STATUS_NULL = 2,
  /**
   * A text is not UTF-8.
   */
  SATLINE_STATUS_NOT_UTF8 = 3,
  /**
   * Arrays overlap, are not aligned for their numbers, or are longer than memory.
   */
  SATLINE_STATUS_BAD_ARRAY = 4,
  /**
   * A number that is no refrigerant of this library; satline_refrigerant has them by name.
   */
  SATLINE_STATUS_NO_REFRIGERANT = 5,
  /**
   * The library has a bug: a computation was given up. Nothing is damaged; a session has forgotten what it kept.
   */
  SATLINE_STATUS_BUG = 6,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum SatlineStatus SatlineStatus;
#else
typedef int32_t SatlineStatus;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What was refused, with its reason. It belongs to the caller, who frees it by satline_error_free.
 */
typedef struct SatlineError SatlineError;

/**
 * Diagnoses one request after another; circuits simulated for one are kept for the next under the same conditions. Calls from several
 * threads wait for each other.
 */
typedef struct SatlineSession SatlineSession;

/**
 * A refrigerant by its place in the list that satline_names has. The place may change with the version of the library: ask
 * satline_refrigerant for it, and keep the name.
 */
typedef uint32_t SatlineRefrigerant;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * SATLINE_ABI_VERSION of the library that is linked; compare it with that of the header.
 */
uint32_t satline_abi_version(void);

/**
 * Id of the kind of error, which stays when messages change, such as "unit-missing". It is valid until the error is freed; NULL for NULL.
 *
 * # Safety
 * `error` is NULL or an error that was not freed.
 */
const char *satline_error_code(const SatlineError *error);

/**
 * Name of the input that the error is about, valid as the code; NULL if it is about no particular one.
 *
 * # Safety
 * `error` is NULL or an error that was not freed.
 */
const char *satline_error_input(const SatlineError *error);

/**
 * Message for a person, in English, valid as the code.
 *
 * # Safety
 * `error` is NULL or an error that was not freed.
 */
const char *satline_error_message(const SatlineError *error);

/**
 * The error as JSON, with questions about units if there are any; valid as the code.
 *
 * # Safety
 * `error` is NULL or an error that was not freed.
 */
const char *satline_error_json(const SatlineError *error);

/**
 * Frees an error and its texts; NULL is allowed.
 *
 * # Safety
 * `error` is NULL or an error that was not freed.
 */
void satline_error_free(SatlineError *error);

/**
 * Frees a text that a function of this library returned; NULL is allowed.
 *
 * # Safety
 * `text` is NULL or such a text that was not freed.
 */
void satline_text_free(char *text);

/**
 * The refrigerant of a name as people write it: "R-134a", "r134a", "HFO-1234yf".
 *
 * # Safety
 * `name` is NULL or a text that ends with NUL; `found` and `error` are NULL or point to variables.
 */
SatlineStatus satline_refrigerant(const char *name,
                                  SatlineRefrigerant *found,
                                  SatlineError **error);

/**
 * Dew-point temperature, K, at an absolute pressure, Pa. Where there is no answer `kelvin` is NaN.
 *
 * # Safety
 * `kelvin` and `error` are NULL or point to variables.
 */
SatlineStatus satline_dew_temperature(SatlineRefrigerant refrigerant,
                                      double absolute_pa,
                                      double *kelvin,
                                      SatlineError **error);

/**
 * Bubble-point temperature, K, at an absolute pressure, Pa. Where there is no answer `kelvin` is NaN.
 *
 * # Safety
 * `kelvin` and `error` are NULL or point to variables.
 */
SatlineStatus satline_bubble_temperature(SatlineRefrigerant refrigerant,
                                         double absolute_pa,
                                         double *kelvin,
                                         SatlineError **error);

/**
 * Absolute dew-point pressure, Pa, at a temperature, K. Where there is no answer `absolute_pa` is NaN.
 *
 * # Safety
 * `absolute_pa` and `error` are NULL or point to variables.
 */
SatlineStatus satline_dew_pressure(SatlineRefrigerant refrigerant,
                                   double kelvin,
                                   double *absolute_pa,
                                   SatlineError **error);

/**
 * Absolute bubble-point pressure, Pa, at a temperature, K. Where there is no answer `absolute_pa` is NaN.
 *
 * # Safety
 * `absolute_pa` and `error` are NULL or point to variables.
 */
SatlineStatus satline_bubble_pressure(SatlineRefrigerant refrigerant,
                                      double kelvin,
                                      double *absolute_pa,
                                      SatlineError **error);

/**
 * Superheat, K, of a suction line: its temperature less the dew point at the gauge pressure. `air_pa` is the absolute pressure of the
 * surrounding air. Where there is no answer `superheat_k` is NaN.
 *
 * # Safety
 * `superheat_k` and `error` are NULL or point to variables.
 */
SatlineStatus satline_superheat(SatlineRefrigerant refrigerant,
                                double gauge_pa,
                                double air_pa,
                                double line_k,
                                double *superheat_k,
                                SatlineError **error);

/**
 * Subcooling, K, of a liquid line: the bubble point at the gauge pressure less its temperature. `air_pa` is the absolute pressure of the
 * surrounding air. Where there is no answer `subcooling_k` is NaN.
 *
 * # Safety
 * `subcooling_k` and `error` are NULL or point to variables.
 */
SatlineStatus satline_subcooling(SatlineRefrigerant refrigerant,
                                 double gauge_pa,
                                 double air_pa,
                                 double line_k,
                                 double *subcooling_k,
                                 SatlineError **error);

/**
 * Absolute pressure, Pa, of the standard atmosphere at an altitude, m. Where there is no answer `air_pa` is NaN.
 *
 * # Safety
 * `air_pa` and `error` are NULL or point to variables.
 */
SatlineStatus satline_air_pressure(double altitude_m,
                                   double *air_pa,
                                   SatlineError **error);

/**
 * Dew-point temperatures, K, at absolute pressures, Pa.
 *
 * # Safety
 * Both columns have `rows` numbers and do not overlap; with no rows they may be NULL. `answered` and `error` are NULL or point to
 * variables.
 */
SatlineStatus satline_dew_temperatures(SatlineRefrigerant refrigerant,
                                       const double *absolute_pa,
                                       double *kelvin,
                                       size_t rows,
                                       size_t *answered,
                                       SatlineError **error);

/**
 * Bubble-point temperatures, K, at absolute pressures, Pa.
 *
 * # Safety
 * As of satline_dew_temperatures.
 */
SatlineStatus satline_bubble_temperatures(SatlineRefrigerant refrigerant,
                                          const double *absolute_pa,
                                          double *kelvin,
                                          size_t rows,
                                          size_t *answered,
                                          SatlineError **error);

/**
 * Absolute dew-point pressures, Pa, at temperatures, K.
 *
 * # Safety
 * As of satline_dew_temperatures.
 */
SatlineStatus satline_dew_pressures(SatlineRefrigerant refrigerant,
                                    const double *kelvin,
                                    double *absolute_pa,
                                    size_t rows,
                                    size_t *answered,
                                    SatlineError **error);

/**
 * Absolute bubble-point pressures, Pa, at temperatures, K.
 *
 * # Safety
 * As of satline_dew_temperatures.
 */
SatlineStatus satline_bubble_pressures(SatlineRefrigerant refrigerant,
                                       const double *kelvin,
                                       double *absolute_pa,
                                       size_t rows,
                                       size_t *answered,
                                       SatlineError **error);

/**
 * Superheats, K, of a suction line, as of satline_superheat. `air_pa` has `air_rows` numbers: one for each row, or one for all.
 *
 * # Safety
 * The columns `gauge_pa`, `line_k` and `superheat_k` have `rows` numbers and `air_pa` has `air_rows`; the last of them overlaps none of
 * the others. With no rows a column may be NULL. `answered` and `error` are NULL or point to variables.
 */
SatlineStatus satline_superheats(SatlineRefrigerant refrigerant,
                                 const double *gauge_pa,
                                 const double *air_pa,
                                 size_t air_rows,
                                 const double *line_k,
                                 double *superheat_k,
                                 size_t rows,
                                 size_t *answered,
                                 SatlineError **error);

/**
 * Subcoolings, K, of a liquid line, as of satline_subcooling. `air_pa` has `air_rows` numbers: one for each row, or one for all.
 *
 * # Safety
 * As of satline_superheats.
 */
SatlineStatus satline_subcoolings(SatlineRefrigerant refrigerant,
                                  const double *gauge_pa,
                                  const double *air_pa,
                                  size_t air_rows,
                                  const double *line_k,
                                  double *subcooling_k,
                                  size_t rows,
                                  size_t *answered,
                                  SatlineError **error);

/**
 * A new session, freed by satline_session_free.
 */
SatlineSession *satline_session_new(void);

/**
 * Frees a session; NULL is allowed.
 *
 * # Safety
 * `session` is NULL or a session that was not freed and that no call uses.
 */
void satline_session_free(SatlineSession *session);

/**
 * The report on a request, as JSON, cautions included; bindings/json/README.md describes the request. The text belongs to the caller,
 * who frees it by satline_text_free; it is NULL where there is no answer.
 *
 * # Safety
 * `session` is NULL or a session that was not freed, `request` is NULL or a text that ends with NUL; `report` and `error` are NULL or
 * point to variables.
 */
SatlineStatus satline_session_report(const SatlineSession *session,
                                     const char *request,
                                     char **report,
                                     SatlineError **error);

/**
 * The page on a request, as one HTML document: {"request": ..., "language": "english" or "spanish", "whole": true or false}. The text
 * is the caller's, as of satline_session_report. A library that was built without its feature `page` does not have this function.
 *
 * # Safety
 * As of satline_session_report.
 */
SatlineStatus satline_session_page(const SatlineSession *session,
                                   const char *request,
                                   char **page,
                                   SatlineError **error);

/**
 * Saturation, superheat and subcooling as JSON, in SI units, of values with their units:
 * {"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F", "altitude": "300 m"}. The text is the caller's, as of
 * satline_session_report.
 *
 * # Safety
 * `question` is NULL or a text that ends with NUL; `properties` and `error` are NULL or point to variables.
 */
SatlineStatus satline_properties(const char *question,
                                 char **properties,
                                 SatlineError **error);

/**
 * Names that a request may contain, as JSON: refrigerants, in the order of their numbers, measurands and observations. The text is the
 * caller's, as of satline_session_report.
 *
 * # Safety
 * `names` and `error` are NULL or point to variables.
 */
SatlineStatus satline_names(char **names,
                            SatlineError **error);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* SATLINE_H */
