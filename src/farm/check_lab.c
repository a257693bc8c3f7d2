/* Checks among the keys of a lab report. */
#include "reader.h"

static void check_whole(ls_farm_reader *reader, const ls_lab *lab) {
    /* the oxides weigh more than the elements: 2.2914 and 1.2046 times */
    double sum = lab->N.value + lab->P2O5.value + lab->K2O.value + 2.2914 * lab->P.value + 1.2046 * lab->K.value +
                 (lab->basis.is == LS_DRY ? 0 : lab->moisture.value);
    if (sum > 1)
        LS_FARM_WRONG(reader, lab->at, "check the figures and the basis",
                      "moisture, N, P2O5 and K2O come to more than the litter itself: %s%%",
                      ls_number_text(reader->arena, 100 * sum, 4));
}

void ls_farm_check_lab(ls_farm_reader *reader, void *section, bool clean) {
    const ls_lab *lab = section;
    if (lab->basis.is == LS_DRY && !LS_GIVEN(lab->moisture) && clean)
        LS_FARM_WRONG(reader, lab->basis.at, "add the moisture of the sample, for example \"moisture: 33 %\"",
                      "a lab report on a dry basis needs its moisture");
    if (lab->N.form && lab->NH4N.form && lab->NH4N.value > lab->N.value * (1 + 1e-9))
        LS_FARM_WRONG(reader, lab->NH4N.at, "ammonium nitrogen is a part of the total: check both figures",
                      "NH4N is above N");
    if (clean) check_whole(reader, lab);
}
