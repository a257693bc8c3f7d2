#include "guard.h"

#include <glpk.h>
#include <setjmp.h>

/* GLPK turns its terminal output on again before an error message: it has to be swallowed here. */
static int swallow(void *info, const char *text) {
    (void)info;
    (void)text;
    return 1;
}

static void give_up(void *back) { longjmp(*(jmp_buf *)back, 1); }

bool ls_haul_guarded(void (*work)(void *data), void *data) {
    jmp_buf back;
    if (setjmp(back) != 0) {
        glp_free_env(); /* the manual asks for this after leaving the hook by longjmp */
        return false;
    }
    glp_term_out(GLP_OFF);
    glp_term_hook(swallow, NULL);
    glp_error_hook(give_up, back);
    work(data);
    glp_free_env();
    return true;
}
