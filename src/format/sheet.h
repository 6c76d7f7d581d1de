/* One sheet of a spreadsheet file, .xlsx (ISO/IEC 29500) or .ods (OpenDocument 1.3), as rows of text.
 *
 * Such a file is a ZIP archive of XML and comes from elsewhere: what unpacks to more than it may, documents with a type
 * declaration or entities, and sheets beyond the limits of sheet_parts.h are mistakes. */
#ifndef FORMAT_SHEET_H
#define FORMAT_SHEET_H

#include "format/file.h"

struct arena;

/* Whether a file is one, by its name. */
bool sheet_is(const char *path);

/* The file's part of "list.xlsx#Doors", and the name of the sheet behind it; NULL: none is named. */
const char *sheet_path(struct arena *arena, const char *named, const char **name);

/* The sheet of that name (NULL: the first) as tab-separated text with the file's name: row n of the sheet is line n. Numbers
 * have a decimal point and no noise in the last digits, dates are `2027-08-07`, of a formula the value that was kept with
 * it; line ends and tabs in a cell become blanks. False: *err. */
bool sheet_read(struct arena *arena, const struct file_text *file, const char *name, struct file_text *text,
                struct err *err);

#endif
