"""A starter file as its user fills it in: each line that says so with an answer, the parts for later put to use."""
import re

PARTS = re.compile(r"^#(?:trucks|crew|buyers|costs|fertilizer):.*\n(?:#.*\n)*", re.M)


def filled(text, answers=None, parts=True):
    """answers: by key; what is not among them is answered as its example has it."""
    answers = answers or {}
    text = re.sub(r"(?m)^( *(?:- )?(\w+):) +# FILL IN, like (.*)$", lambda m: m[1] + " " + answers.get(m[2], m[3]), text)
    return PARTS.sub(lambda m: re.sub(r"(?m)^#", "", m[0]), text) if parts else text
