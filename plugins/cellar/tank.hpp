// cellar.tank: what a vessel holds at a dip or an ullage, and its dip table.
#pragma once

#include "plugins/cellar/keys.hpp"

namespace vatwright::cellar::tank {

constexpr Key<Length> size(std::string_view name, std::string_view help, double most = 30, double least = 0.02) {
  return Key<Length>{{.name = name, .help = help, .unit = "m", .valid = Range{least, most}, .source = slip_guard}};
}

inline constexpr std::string_view upright = "upright cylinder", lying = "lying cylinder", oval = "lying oval",
                                  box = "rectangular", barrel = "barrel";
inline constexpr std::string_view shapes[] = {upright, lying, oval, box, barrel};
inline constexpr std::string_view shapes_help[] = {"round, standing, with a bottom as 'bottom' says",
                                                   "round, on its side", "oval, on its side", "straight walls",
                                                   "on its side, bung up"};
inline constexpr Choice shape{{.name = "shape",
                               .help = "what the vessel looks like inside",
                               .choices_help = shapes_help,
                               .choices = shapes,
                               .source = practice}};
inline constexpr std::string_view flat = "flat", cone = "cone", ellipsoid = "ellipsoid", shallow = "shallow dish",
                                  deep = "deep dish";
inline constexpr std::string_view bottoms[] = {flat, cone, ellipsoid, shallow, deep};
inline constexpr std::string_view bottoms_help[] = {"level", "a cone so deep as 'bottom depth' says",
                                                    "half an ellipsoid so deep as 'bottom depth' says",
                                                    "crown as wide as the tank, knuckle a tenth of it (DIN 28011)",
                                                    "crown 0.8 of the width, knuckle 0.154 (DIN 28013)"};
inline constexpr Choice bottom{{.name = "bottom",
                                .help = "of an upright cylinder",
                                .choices_help = bottoms_help,
                                .choices = bottoms,
                                .source = {.title = "DIN 28011 and DIN 28013", .standing = "from memory"}}};
inline constexpr auto diameter = size("diameter", "inside, of a cylinder");
inline constexpr auto wall = size("wall height", "straight wall of an upright cylinder, its bottom left out");
inline constexpr auto bottom_depth = size("bottom depth", "of a cone or an ellipsoid, lowest point to wall", 10, 0.001);
inline constexpr auto length = size("length", "straight length inside, of what lies or is rectangular", 50);
inline constexpr auto end_depth = size("end depth", "of rounded ends of what lies, each; 0 m where flat", 5, 0);
inline constexpr auto width = size("width", "inside, of an oval or a rectangular vessel");
inline constexpr auto height = size("height", "inside, of an oval or a rectangular vessel");
inline constexpr auto slope = size("floor slope", "rise of a rectangular vessel's floor from end to end", 5, 0);
inline constexpr auto bulge = size("bulge diameter", "inside, at the bung", 5);
inline constexpr auto head = size("head diameter", "inside, at the heads", 5);
inline constexpr Key<Length> dip{{.name = "dip",
                                  .help = "depth of the wine over the lowest point",
                                  .unit = "cm",
                                  .valid = Range{0, 3000},
                                  .source = slip_guard}};
inline constexpr Key<Length> ullage{{.name = "ullage",
                                     .help = "from the wine up to the highest point inside",
                                     .unit = "cm",
                                     .valid = Range{0, 3000},
                                     .source = slip_guard}};

using PerLength = decltype(Volume() / Length());

inline constexpr Result<Volume> volume{{.name = "volume", .help = "of the wine", .unit = "L", .decimals = 1}};
inline constexpr Result<Volume> whole{{.name = "capacity", .help = "of the full vessel", .unit = "L", .decimals = 1}};
inline constexpr Result<Volume> empty{{.name = "head space", .help = "above the wine", .unit = "L", .decimals = 1}};
inline constexpr Result<Fraction> fill{{.name = "filled", .help = "part of the capacity", .unit = "%", .decimals = 1}};
inline constexpr Result<PerLength> per_centimetre{
    {.name = "for each centimetre", .help = "at this level", .unit = "L/cm", .decimals = 2}};

inline constexpr Model<Fraction> true_to_its_shape{
    {.name = "the shape of the vessel",
     .help = "true to it and level: fittings, dents and a lean are not in it",
     .unit = "%",
     .standard = 1,
     .source = {.title = "tanks against a meter", .standing = "common practice, no source"},
     .measure = "the vessel's volume by filling it once through a meter"}};
inline constexpr const ModelInfo* models[] = {&true_to_its_shape};

inline constexpr Need inputs[] = {needs(shape),
                                  takes(diameter),
                                  takes(wall),
                                  takes(bottom, flat),
                                  takes(bottom_depth),
                                  takes(length),
                                  takes(end_depth, "0 m"),
                                  takes(width),
                                  takes(height),
                                  takes(slope, "0 m"),
                                  takes(bulge),
                                  takes(head),
                                  takes(dip),
                                  takes(ullage)};
inline constexpr const Input* level[] = {&dip, &ullage};
inline constexpr OneOf one_of[] = {level};
inline constexpr const ResultInfo* results[] = {&volume, &whole, &empty, &fill, &per_centimetre};
inline constexpr const Input* changes[] = {&lot::volume};
inline constexpr Source sources[] = {{.title = "volumes of solids of revolution", .standing = "derived"},
                                     {.title = "OIML R 71",
                                      .place = "fixed storage tanks: a calibration by volume stands over any reckoning",
                                      .standing = "from memory"}};
inline constexpr std::string_view example[] = {
    "shape=upright cylinder", "diameter=2 m", "wall height=2.5 m", "bottom=cone", "bottom depth=0.4 m", "dip=100 cm"};

Outcome run(const Inputs& in);

inline constexpr Calculation calculation{.name = "tank",
                                         .help = "what a vessel holds at a dip or an ullage, with its dip table",
                                         .inputs = inputs,
                                         .one_of = one_of,
                                         .results = results,
                                         .changes = changes,
                                         .models = models,
                                         .sources = sources,
                                         .example = example,
                                         .measures = true,
                                         .run = run,
                                         .label = "How much is in this tank?",
                                         .group = vessels_and_moves};

}  // namespace vatwright::cellar::tank
