/* Runs a fuzz target once on every file of its corpus: fuzz_NAME reads tests/fuzz/corpus/NAME, or the files given.
 * A broken invariant aborts; the last line printed then names the input. */
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static int replay(const char *path)
{
    FILE *file = fopen(path, "rb");
    struct stat about;
    if (!file || fstat(fileno(file), &about) != 0)
        return perror(path), 1;
    size_t size = (size_t)about.st_size;
    /* A buffer of just this size, so that a read past its end is seen. */
    uint8_t *data = malloc(size ? size : 1);
    int bad = !data || fread(data, 1, size, file) != size;
    fclose(file);
    printf("input %s\n", path);
    fflush(stdout);
    if (!bad)
        LLVMFuzzerTestOneInput(data, size);
    free(data);
    return bad;
}

/* Counts what was run and what could not be read. */
static void replay_folder(const char *folder, int *passed, int *failed)
{
    DIR *dir = opendir(folder);
    if (!dir)
        return;
    for (const struct dirent *entry; (entry = readdir(dir));) {
        char path[1024];
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        *(replay(path) ? failed : passed) += 1;
    }
    closedir(dir);
}

int main(int argc, char **argv)
{
    int passed = 0, failed = 0;
    const char *slash = strrchr(argv[0], '/'), *name = strstr(slash ? slash : argv[0], "fuzz_");
    char folder[256];
    for (int i = 1; i < argc; i++)
        *(replay(argv[i]) ? &failed : &passed) += 1;
    if (argc == 1 && name) {
        snprintf(folder, sizeof folder, "tests/fuzz/corpus/%s", name + strlen("fuzz_"));
        LLVMFuzzerTestOneInput((const uint8_t *)"", 0);
        passed++;
        replay_folder(folder, &passed, &failed);
    }
    printf("%d passed, %d failed\n", passed, failed);
    return failed != 0;
}
