#include "base/sha256.h"

#include <stdbool.h>
#include <string.h>

enum { BLOCK = 64, ROUNDS = 64, LENGTH_AT = 56 };

/* The first 32 bits of the fractional parts of the cube roots of the first 64 primes (4.2.2). */
static const uint32_t constants[ROUNDS] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

static uint32_t turn(uint32_t word, int bits)
{
    return word >> bits | word << (32 - bits);
}

static uint32_t big_endian(const uint8_t *at)
{
    return (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
}

/* The message schedule (6.2.2, step 1). */
static void spread_out(const uint8_t block[BLOCK], uint32_t words[ROUNDS])
{
    for (int t = 0; t < 16; t++)
        words[t] = big_endian(block + 4 * (size_t)t);
    for (int t = 16; t < ROUNDS; t++) {
        uint32_t a = words[t - 2], b = words[t - 15];
        words[t] = (turn(a, 17) ^ turn(a, 19) ^ a >> 10) + words[t - 7] +
                   (turn(b, 7) ^ turn(b, 18) ^ b >> 3) + words[t - 16];
    }
}

/* One block into the eight words of the hash, in the letters of the standard. */
static void take_block(uint32_t hash[8], const uint8_t block[BLOCK])
{
    uint32_t words[ROUNDS];
    uint32_t a = hash[0], b = hash[1], c = hash[2], d = hash[3];
    uint32_t e = hash[4], f = hash[5], g = hash[6], h = hash[7];
    spread_out(block, words);
    for (int t = 0; t < ROUNDS; t++) {
        uint32_t first =
            h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + constants[t] + words[t];
        uint32_t second = (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
        h = g;
        g = f;
        f = e;
        e = d + first;
        d = c;
        c = b;
        b = a;
        a = first + second;
    }
    const uint32_t added[8] = {a, b, c, d, e, f, g, h};
    for (int i = 0; i < 8; i++)
        hash[i] += added[i];
}

struct sha256 sha256_of(const void *bytes, size_t length)
{
    uint32_t hash[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                        0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    uint8_t last[2 * BLOCK] = {0};
    const uint8_t *at = bytes;
    size_t rest = length % BLOCK, padded = rest < LENGTH_AT ? BLOCK : 2 * BLOCK;
    uint64_t bits = (uint64_t)length * 8;
    for (size_t i = 0; i + BLOCK <= length; i += BLOCK)
        take_block(hash, at + i);
    if (rest > 0)
        memcpy(last, at + length - rest, rest);
    last[rest] = 0x80;
    for (size_t i = 0; i < 8; i++)
        last[padded - 1 - i] = (uint8_t)(bits >> 8 * i);
    for (size_t i = 0; i < padded; i += BLOCK)
        take_block(hash, last + i);
    struct sha256 result;
    for (size_t i = 0; i < SHA256_BYTES; i++)
        result.bytes[i] = (uint8_t)(hash[i / 4] >> (24 - 8 * (i % 4)));
    return result;
}

void sha256_hex(const struct sha256 *hash, size_t digits, char *text)
{
    static const char hex[] = "0123456789abcdef";
    for (size_t i = 0; i < digits; i++)
        text[i] = hex[hash->bytes[i / 2] >> (i % 2 ? 0 : 4) & 15];
    text[digits] = '\0';
}

void sha256_base64(const struct sha256 *hash, char text[SHA256_BASE64_SIZE])
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    size_t used = 0;
    for (size_t i = 0; i < SHA256_BYTES; i += 3) {
        bool two = i + 2 < SHA256_BYTES;
        uint32_t group = (uint32_t)hash->bytes[i] << 16 | (uint32_t)hash->bytes[i + 1] << 8 |
                         (two ? hash->bytes[i + 2] : 0);
        text[used++] = letters[group >> 18 & 63];
        text[used++] = letters[group >> 12 & 63];
        text[used++] = letters[group >> 6 & 63];
        text[used++] = two ? letters[group & 63] : '=';
    }
    text[used] = '\0';
}
