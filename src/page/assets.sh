#!/bin/sh
# assets.sh FILE... - a table of these files, as source for the assembler: struct page_asset page_assets[] of assets.c.
i=0
for file; do
    printf '.section .rodata\nname%d: .asciz "%s"\nfile%d: .incbin "%s"\nend%d: .byte 0\n' \
        $i "${file##*/}" $i "$file" $i
    i=$((i + 1))
done
# The linker fills in the addresses, so that the table cannot lie among what is never written.
printf '.section .data.rel.ro, "aw"\n.globl page_assets\n.hidden page_assets\n.balign 16\npage_assets:\n'
n=0
while [ $n -lt $i ]; do
    printf '.dc.a name%d, file%d, end%d - file%d\n' $n $n $n $n
    n=$((n + 1))
done
printf '.dc.a 0, 0, 0\n.section .note.GNU-stack, "", %%progbits\n'
