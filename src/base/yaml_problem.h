/* What libyaml finds wrong, in plain words. */
#pragma once

#include "littershed/base/diag.h"

#include <yaml.h>

/* The place of a mark of libyaml, which counts from 0. */
ls_place ls_yaml_place(int32_t file, yaml_mark_t mark);
/* Note why a parser of the input number file failed. */
void ls_yaml_problem(ls_diag *d, int32_t file, const yaml_parser_t *parser);
/* Note that a value cannot begin with this sign. */
void ls_yaml_refuse_sign(ls_diag *d, ls_place at, char sign);
/* Note that a file is none of a farm (empty, another format, UTF-16); false if it may be one. */
bool ls_yaml_refuse_file(ls_diag *d, int32_t file);
