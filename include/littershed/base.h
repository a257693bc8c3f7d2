/* base: what every other room stands on. Knows nothing of birds, litter or fields. */
#pragma once

#include "littershed/base/arena.h"
#include "littershed/base/calendar.h"
#include "littershed/base/diag.h"
#include "littershed/base/file.h"
#include "littershed/base/spread.h"
#include "littershed/base/text.h"
#include "littershed/base/unit.h"
#include "littershed/base/yaml.h"
