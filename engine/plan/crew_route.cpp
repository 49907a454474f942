#include "plan/crew_route.hpp"

#include <algorithm>
#include <iterator>
#include <limits>
#include <utility>

namespace ashtriage::plan {

namespace {

constexpr int no_way = std::numeric_limits<int>::max() / 4;

// The shortest way from the start through each subset to each of its sites: [subset][last].
std::vector<std::vector<int>> ways_to_last(const Problem& problem, int crew,
                                           const std::vector<int>& sites) {
    const std::size_t count = sites.size();
    std::vector<std::vector<int>> ways(std::size_t{1} << count, std::vector<int>(count, no_way));
    for (std::size_t i = 0; i < count; ++i) {
        ways[std::size_t{1} << i][i] = problem.leg(problem.start(crew), sites[i]);
    }
    for (std::size_t subset = 1; subset < ways.size(); ++subset) {
        for (std::size_t last = 0; last < count; ++last) {
            if (ways[subset][last] == no_way) continue;
            for (std::size_t next = 0; next < count; ++next) {
                const std::size_t bit = std::size_t{1} << next;
                if ((subset & bit) != 0) continue;
                int& way = ways[subset | bit][next];
                way = std::min(way, ways[subset][last] + problem.leg(sites[last], sites[next]));
            }
        }
    }
    return ways;
}

Route exact_route(const Problem& problem, int crew, const std::vector<int>& sites) {
    Route route;
    if (sites.empty()) return route;
    const int home = problem.start(crew);
    const auto ways = ways_to_last(problem, crew, sites);
    std::size_t subset = ways.size() - 1;
    int next = home;
    std::vector<int> backwards;
    while (subset != 0) {
        std::size_t best = 0;
        int best_way = no_way;
        for (std::size_t last = 0; last < sites.size(); ++last) {
            if (ways[subset][last] == no_way) continue;
            const int way = ways[subset][last] + problem.leg(sites[last], next);
            if (way < best_way) {
                best_way = way;
                best = last;
            }
        }
        if (next == home && backwards.empty()) route.travel = best_way;
        backwards.push_back(sites[best]);
        next = sites[best];
        subset &= ~(std::size_t{1} << best);
    }
    route.sites.assign(backwards.rbegin(), backwards.rend());
    return route;
}

// Turns parts of the way round as long as that makes it shorter.
Route turned_route(const Problem& problem, int crew, std::vector<int> sites) {
    int travel = travel_of(problem, crew, sites);
    for (bool shorter = true; shorter;) {
        shorter = false;
        for (std::size_t i = 0; i < sites.size(); ++i) {
            for (std::size_t j = i + 1; j < sites.size(); ++j) {
                const auto from = sites.begin() + static_cast<std::ptrdiff_t>(i);
                const auto to = sites.begin() + static_cast<std::ptrdiff_t>(j) + 1;
                std::reverse(from, to);
                const int turned = travel_of(problem, crew, sites);
                if (turned < travel) {
                    travel = turned;
                    shorter = true;
                } else {
                    std::reverse(from, to);
                }
            }
        }
    }
    return {std::move(sites), travel};
}

// How many pairs of sites come in the other order than before.
std::size_t turned_pairs(const std::vector<int>& sites, const std::vector<int>& earlier) {
    std::vector<std::ptrdiff_t> positions;
    for (const int site : sites) {
        const auto found = std::ranges::find(earlier, site);
        if (found != earlier.end()) positions.push_back(found - earlier.begin());
    }
    std::size_t turned = 0;
    for (auto later = positions.begin(); later != positions.end(); ++later) {
        turned += static_cast<std::size_t>(std::count_if(
            positions.begin(), later, [&](std::ptrdiff_t first) { return first > *later; }));
    }
    return turned;
}

}  // namespace

int travel_of(const Problem& problem, int crew, const std::vector<int>& sites) {
    const int home = problem.start(crew);
    int at = home;
    int travel = 0;
    for (const int site : sites) {
        if (!problem.has_place(site)) continue;
        travel += problem.leg(at, site);
        at = site;
    }
    return travel + problem.leg(at, home);
}

Route route_for(const Problem& problem, int crew, std::vector<int> sites) {
    std::vector<int> nowhere;
    std::ranges::copy_if(sites, std::back_inserter(nowhere),
                         [&](int site) { return !problem.has_place(site); });
    std::erase_if(sites, [&](int site) { return !problem.has_place(site); });
    Route route = sites.size() <= most_exact_stops ? exact_route(problem, crew, sites)
                                                   : turned_route(problem, crew, std::move(sites));
    route.sites.insert(route.sites.end(), nowhere.begin(), nowhere.end());
    return route;
}

std::vector<int> like_earlier(const Problem& problem, int crew, const std::vector<int>& sites,
                              const std::vector<int>& earlier) {
    std::vector<std::vector<int>> ways{sites, {sites.rbegin(), sites.rend()}, {}};
    std::ranges::copy_if(earlier, std::back_inserter(ways.back()),
                         [&](int site) { return std::ranges::find(sites, site) != sites.end(); });
    if (ways.back().size() != sites.size()) ways.pop_back();
    return *std::ranges::min_element(ways, {}, [&](const std::vector<int>& way) {
        return std::pair(travel_of(problem, crew, way), turned_pairs(way, earlier));
    });
}

std::vector<int> shortest_ways(const Problem& problem, int crew, const std::vector<int>& sites) {
    std::vector<int> placed;
    for (const int site : sites) {
        if (problem.has_place(site)) placed.push_back(site);
    }
    const auto to_last = ways_to_last(problem, crew, placed);
    std::vector<int> of_placed(to_last.size(), 0);
    for (std::size_t subset = 1; subset < to_last.size(); ++subset) {
        of_placed[subset] = no_way;
        for (std::size_t last = 0; last < placed.size(); ++last) {
            if (to_last[subset][last] == no_way) continue;
            of_placed[subset] =
                std::min(of_placed[subset],
                         to_last[subset][last] + problem.leg(placed[last], problem.start(crew)));
        }
    }
    std::vector<int> ways(std::size_t{1} << sites.size(), 0);
    for (std::size_t subset = 0; subset < ways.size(); ++subset) {
        std::size_t of = 0;
        std::size_t bit = 1;
        for (std::size_t i = 0; i < sites.size(); ++i) {
            if (!problem.has_place(sites[i])) continue;
            if ((subset >> i & 1U) != 0) of |= bit;
            bit <<= 1U;
        }
        ways[subset] = of_placed[of];
    }
    return ways;
}

}  // namespace ashtriage::plan
