#include "dossier_world.h"
TEST_SUITE(dossier_years) = {CU_TEST_INFO_NULL};
