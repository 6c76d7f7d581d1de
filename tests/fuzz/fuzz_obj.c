/* An OBJ file is refused at a place, or its area is a number that doubles with the file. */
#include "mesh_bytes.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct mesh_report once;
    if (measure_copies(data, size, 1, "fuzz.obj", &once))
        check_twice(data, size, "fuzz.obj", &once);
    return 0;
}
