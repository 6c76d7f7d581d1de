/* SHA-256 (FIPS 180-4): whether a text is still the one that was read, and what a page may show. */
#ifndef BASE_SHA256_H
#define BASE_SHA256_H

#include <stddef.h>
#include <stdint.h>

enum { SHA256_BYTES = 32 };

struct sha256 {
    uint8_t bytes[SHA256_BYTES];
};

struct sha256 sha256_of(const void *bytes, size_t length);

/* Its first `digits` hexadecimal digits (at most 64), terminated, into room for one more. */
void sha256_hex(const struct sha256 *hash, size_t digits, char *text);

/* As base64 (RFC 4648), terminated. */
enum { SHA256_BASE64_SIZE = 45 };
void sha256_base64(const struct sha256 *hash, char text[SHA256_BASE64_SIZE]);

#endif
