#include "format/html.h"

#include "format/svg.h"

void html_text(struct buf *out, const char *text)
{
    svg_escape(out, text);
}

void html_attribute(struct buf *look, const char *name, const char *value)
{
    buf_addf(look, "%s%s=\"", look->length ? " " : "", name);
    svg_escape(look, value);
    buf_add_char(look, '"');
}

void html_open(struct buf *out, const char *name, const char *look)
{
    buf_addf(out, "<%s%s%s>", name, *look ? " " : "", look);
}

void html_close(struct buf *out, const char *name)
{
    buf_addf(out, "</%s>\n", name);
}

void html_element(struct buf *out, const char *name, const char *look, const char *text)
{
    if (!text)
        return;
    html_open(out, name, look);
    html_text(out, text);
    html_close(out, name);
}

void html_begin(struct buf *out, const char *title, const char *style)
{
    buf_add(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
                 "<meta http-equiv=\"Content-Security-Policy\" "
                 "content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n"
                 "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    html_element(out, "title", "", title);
    buf_addf(out, "<style>\n%s</style>\n</head>\n<body>\n", style);
}

void html_end(struct buf *out)
{
    buf_add(out, "</body>\n</html>\n");
}
