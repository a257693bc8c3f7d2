#include "utf8.h"

#include <stdio.h>
#include <string.h>

static bool continues(const char *s, size_t n, size_t i) { return i < n && ((unsigned char)s[i] & 0xC0) == 0x80; }

ls_utf8_character ls_utf8_at(const char *s, size_t n) {
    /* The least code of each length: longer forms of a code are not valid (RFC 3629). */
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    unsigned char first = (unsigned char)s[0];
    ls_utf8_character bad = {first, 1, false};
    if (first < 0x80) return (ls_utf8_character){first, 1, true};
    uint32_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC0 || first > 0xF4) return bad;
    uint32_t code = first & (0x7Fu >> bytes);
    for (uint32_t i = 1; i < bytes; i++) {
        if (!continues(s, n, i)) return bad;
        code = code << 6 | ((unsigned char)s[i] & 0x3Fu);
    }
    if (code < least[bytes] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return bad;
    return (ls_utf8_character){code, bytes, true};
}

size_t ls_utf8_plain(const char *s) {
    size_t n = 0;
    while (s[n] >= 0x20 && s[n] < 0x7F) n++;
    return n;
}

size_t ls_utf8_back(const char *s, size_t at) {
    for (size_t bytes = 1; bytes <= 4 && bytes <= at; bytes++) {
        ls_utf8_character c = ls_utf8_at(s + at - bytes, bytes);
        if (c.valid && c.bytes == bytes) return bytes;
    }
    return 1;
}

/* Invisible or direction-changing (Unicode general categories Cc, Cf, Zl, Zp and the blank fillers
 * and variation selectors). */
static const struct {
    uint32_t from, to;
} unsafe[] = {
    {0x00, 0x1F},       {0x7F, 0x9F},       {0xAD, 0xAD},       {0x034F, 0x034F},   {0x0600, 0x0605},
    {0x061C, 0x061C},   {0x06DD, 0x06DD},   {0x070F, 0x070F},   {0x0890, 0x0891},   {0x08E2, 0x08E2},
    {0x115F, 0x1160},   {0x17B4, 0x17B5},   {0x180B, 0x180F},   {0x200B, 0x200F},   {0x2028, 0x202E},
    {0x2060, 0x206F},   {0x3164, 0x3164},   {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},
    {0xFFF0, 0xFFFB},   {0x110BD, 0x110BD}, {0x110CD, 0x110CD}, {0x13430, 0x1343F}, {0x1BCA0, 0x1BCA3},
    {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
};

/* A control, invisible or direction-changing character, or no character at all. */
static bool is_unsafe(ls_utf8_character c) {
    if (!c.valid) return true;
    for (size_t i = 0; i < sizeof unsafe / sizeof *unsafe; i++)
        if (c.code >= unsafe[i].from && c.code <= unsafe[i].to) return true;
    return false;
}

/* East Asian width W and F (Unicode Standard Annex 11), whole blocks where most is wide. */
static const struct {
    uint32_t from, to;
} wide[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23F3}, {0x25FD, 0x25FE}, {0x2600, 0x27BF},
    {0x2B1B, 0x2B1C},   {0x2B50, 0x2B55},   {0x2E80, 0x303E},   {0x3041, 0xA4CF}, {0xA960, 0xA97F}, {0xAC00, 0xD7A3},
    {0xF900, 0xFAFF},   {0xFE10, 0xFE19},   {0xFE30, 0xFE6F},   {0xFF01, 0xFF60}, {0xFFE0, 0xFFE6}, {0x16FE0, 0x18DFF},
    {0x1AFF0, 0x1B2FF}, {0x1F000, 0x1FAFF}, {0x20000, 0x3FFFD},
};

size_t ls_utf8_columns(ls_utf8_character c) {
    if (c.valid && c.code >= wide[0].from)
        for (size_t i = 0; i < sizeof wide / sizeof *wide; i++)
            if (c.code >= wide[i].from && c.code <= wide[i].to) return 2;
    return 1;
}

size_t ls_utf8_visible(const char *s, ls_utf8_character c, char out[LS_UTF8_VISIBLE]) {
    if (!is_unsafe(c)) {
        memcpy(out, s, c.bytes);
        out[c.bytes] = '\0';
        return ls_utf8_columns(c);
    }
    bool byte = !c.valid || c.code < 0x80;
    int n = snprintf(out, LS_UTF8_VISIBLE, byte ? "\\x%02X" : "\\u{%04X}", (unsigned)c.code);
    return (size_t)n;
}
