#include "report/html/contents.hpp"

namespace podrate::sim {

std::string with_contents(std::string body, const std::string& mark) {
    static const std::string kOpen = "<h2>";
    static const std::string kClose = "</h2>";
    std::string links;
    int number = 0;
    for (std::size_t at = body.find(kOpen); at != std::string::npos; at = body.find(kOpen, at)) {
        const std::size_t from = at + kOpen.size();
        const std::size_t end = body.find(kClose, from);
        if (end == std::string::npos) break;
        const std::string name = "part" + std::to_string(++number);
        links += "<a href=\"#" + name + "\">" + body.substr(from, end - from) + "</a>";
        const std::string anchor = "<span id=\"" + name + "\"></span>";
        body.insert(at, anchor);
        at = end + anchor.size();
    }
    const std::size_t place = body.find(mark);
    if (place != std::string::npos)
        body.replace(place, mark.size(),
                     links.empty() ? "" : "<nav class=\"contents\">" + links + "</nav>\n");
    return body;
}

}  // namespace podrate::sim
