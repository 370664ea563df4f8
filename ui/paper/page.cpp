#include "paper/page.h"

#include <fmt/format.h>

#include "service_sheet/svg_pen.h"

namespace voltfall {
namespace {

// The page's width is the paper's.
constexpr std::string_view common_style =
    "@page{margin:12mm}"
    "body{font:10pt/1.35 Inter,Helvetica,Arial,sans-serif;color:#1f2a32;max-width:186mm;margin:0 auto;padding:4mm}"
    "h1{font-size:16pt;margin:0;border-bottom:1.5pt solid}"
    "h2{font-size:11pt;margin:12pt 0 3pt;border-bottom:.7pt solid}h3{font-size:10pt;margin:8pt 0 1pt}"
    "p{margin:2pt 0 5pt}svg{width:100%;height:auto;margin:6pt 0}ol,ul{margin:2pt 0 6pt;padding-left:6mm}"
    "table{border-collapse:collapse;width:100%}td,th{text-align:left;vertical-align:top;padding:2pt 4pt 2pt 0;"
    "border-bottom:.3pt solid #999}tr{break-inside:avoid}td.n,th.n{text-align:right;white-space:nowrap}"
    ".note{color:#58544a;font-size:9pt;margin:0}";

}  // namespace

std::string html_page(std::string_view title, std::string_view style, std::string_view body) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>{}</title>\n"
      "<style>{}{}</style></head>\n<body>\n{}</body>\n</html>\n",
      escaped(title), common_style, style, body);
}

}  // namespace voltfall
