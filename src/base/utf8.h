/* Private to base: one character of a UTF-8 text. */
#ifndef CLENCH_BASE_UTF8_H
#define CLENCH_BASE_UTF8_H

#include <stddef.h>

/* Length in bytes of the well-formed character at `bytes`, 0 where there is none. Overlong forms,
 * surrogates and values above U+10FFFF are ill-formed: The Unicode Standard, Table 3-7. */
static inline size_t utf8_length(const char *bytes, size_t size)
{
    const unsigned char *b = (const unsigned char *)bytes;
    if (size == 0) return 0;
    if (b[0] < 0x80) return 1;
    const size_t length = b[0] < 0xC2 ? 0 : b[0] < 0xE0 ? 2 : b[0] < 0xF0 ? 3 : b[0] < 0xF5 ? 4 : 0;
    if (length == 0 || length > size) return 0;
    for (size_t i = 1; i < length; i++)
        if ((b[i] & 0xC0) != 0x80) return 0;
    if ((b[0] == 0xE0 && b[1] < 0xA0) || (b[0] == 0xED && b[1] > 0x9F)) return 0;
    if ((b[0] == 0xF0 && b[1] < 0x90) || (b[0] == 0xF4 && b[1] > 0x8F)) return 0;
    return length;
}

#endif
