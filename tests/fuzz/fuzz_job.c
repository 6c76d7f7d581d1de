/* Whole jobs, with shop, finish, stock and diary, through the public functions: whole_job.h says what holds of each. The
 * fuzzer's own mutations of bytes are mixed with ours of numbers, words, lines and values. */
#include "whole_job.h"

#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t room);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t room, unsigned int seed);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    (void)whole_job_try((const char *)data, size);
    return 0;
}

#ifdef FUZZING_BUILD_MODE_UNSAFE_FOR_PRODUCTION
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t room, unsigned int seed)
{
    uint64_t state = seed;
    if (seed % 8 == 0 || size == 0)
        return LLVMFuzzerMutate(data, size, room);
    for (unsigned int i = 0; i <= seed / 8 % 3; i++)
        size = whole_job_mutate((char *)data, size, room, &state);
    return size;
}
#endif
