#include "entry.h"

#include "littershed/reference.h"

#include <glpk.h>
#include <gsl/gsl_version.h>
#include <jansson.h>
#include <yaml.h>

const char *ls_command_version(ls_arena *a) {
    const ls_reference *r = ls_reference_load(a);
    return ls_arena_printf(a,
                           "littershed %s\n"
                           "tables %s of %s\n"
                           "Copyright the littershed authors. License GPL-3.0-or-later.\n"
                           "You may change and pass on this program under that license.\n"
                           "There is no warranty, to the extent the law permits.\n"
                           "libraries: libyaml %s, GSL %s, GLPK %s, jansson %s\n",
                           LITTERSHED_VERSION, ls_reference_version(r), ls_reference_date(r),
                           yaml_get_version_string(), gsl_version, glp_version(),
                           jansson_version_str());
}
