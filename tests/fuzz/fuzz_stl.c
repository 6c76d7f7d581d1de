/* An STL file is refused, or its length is that of its triangles (binary), or its area doubles with the file (text). */
#include "mesh_bytes.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct mesh_report once;
    if (!measure_copies(data, size, 1, "fuzz.stl", &once))
        return 0;
    if (size != 84 + 50 * once.triangles)
        check_twice(data, size, "fuzz.stl", &once);
    return 0;
}
