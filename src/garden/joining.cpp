#include "garden/joining.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <unordered_map>

namespace teetally::garden {

namespace {

struct Vertex {
  Point at;
  int path = -1;        // -1: the tap
  bool end = false;     // of its path
  bool outlet = false;  // nothing else joins here
};

// Segments by cells of a plan grid, so that an end looks only at what lies near it.
class Grid {
 public:
  explicit Grid(Length cell) : cell_(std::max<std::int64_t>(cell.tenths_mm, 1)) {}

  void add(int path, Point a, Point b) {
    // Long legs cross many cells: walk their box in strides and let the exact test decide.
    const std::int64_t east0 = cell_of(std::min(a.east, b.east)), east1 = cell_of(std::max(a.east, b.east));
    const std::int64_t north0 = cell_of(std::min(a.north, b.north)), north1 = cell_of(std::max(a.north, b.north));
    if ((east1 - east0 + 1) * (north1 - north0 + 1) > kMostCells) {
      wide_.push_back(path);
      return;
    }
    for (std::int64_t east = east0; east <= east1; ++east) {
      for (std::int64_t north = north0; north <= north1; ++north) cells_[key(east, north)].push_back(path);
    }
  }

  // Paths with a leg that may lie within the tolerance of `at`, each once, in order.
  std::vector<int> near(Point at, Length tolerance) const {
    std::vector<int> paths = wide_;
    for (std::int64_t east = cell_of(at.east - tolerance); east <= cell_of(at.east + tolerance); ++east) {
      for (std::int64_t north = cell_of(at.north - tolerance); north <= cell_of(at.north + tolerance); ++north) {
        const auto cell = cells_.find(key(east, north));
        if (cell != cells_.end()) paths.insert(paths.end(), cell->second.begin(), cell->second.end());
      }
    }
    std::sort(paths.begin(), paths.end());
    paths.erase(std::unique(paths.begin(), paths.end()), paths.end());
    return paths;
  }

 private:
  static constexpr std::int64_t kMostCells = 4096;

  std::int64_t cell_of(Length length) const {
    return length.tenths_mm >= 0 ? length.tenths_mm / cell_ : -((-length.tenths_mm + cell_ - 1) / cell_);
  }
  static std::uint64_t key(std::int64_t east, std::int64_t north) {
    return static_cast<std::uint64_t>(east) * 0x9E3779B97F4A7C15ULL ^ static_cast<std::uint64_t>(north);
  }

  std::int64_t cell_;
  std::unordered_map<std::uint64_t, std::vector<int>> cells_;
  std::vector<int> wide_;
};

class Joiner {
 public:
  Joiner(const std::vector<Path>& paths, Point source, Length tolerance)
      : tolerance_(tolerance), grid_(std::max(tolerance * 4, feet(2))) {
    add_vertex({source, -1, true, false});
    for (std::size_t i = 0; i < paths.size(); ++i) add_path(static_cast<int>(i), paths[i]);
  }

  Joints joined() {
    meet(0);
    // Splitting adds vertices, which are no ends: only the ends there are now can meet something.
    const std::size_t count = vertices_.size();
    for (std::size_t v = 1; v < count; ++v) {
      if (vertices_[v].end && !vertices_[v].outlet) meet(static_cast<int>(v));
    }
    return result();
  }

 private:
  int add_vertex(const Vertex& vertex) {
    vertices_.push_back(vertex);
    parent_.push_back(static_cast<int>(parent_.size()));
    return static_cast<int>(vertices_.size()) - 1;
  }

  void add_path(int index, const Path& path) {
    JointedPath jointed{path.run, path.outlet, path.at, {}, path.roles, path.places, {}};
    Length along;
    for (std::size_t i = 0; i < path.at.size(); ++i) {
      const bool last = i + 1 == path.at.size();
      jointed.joint.push_back(add_vertex({path.at[i], index, i == 0 || last, last && path.outlet >= 0}));
      if (i > 0) along += distance(path.at[i - 1], path.at[i]);
      jointed.along.push_back(along);
      if (!last) grid_.add(index, path.at[i], path.at[i + 1]);
    }
    paths_.push_back(std::move(jointed));
  }

  int find(int v) {
    while (parent_[static_cast<std::size_t>(v)] != v) {
      int& up = parent_[static_cast<std::size_t>(v)];
      up = parent_[static_cast<std::size_t>(up)];
      v = up;
    }
    return v;
  }
  void unite(int a, int b) {
    a = find(a);
    b = find(b);
    if (a != b) parent_[static_cast<std::size_t>(std::max(a, b))] = std::min(a, b);
  }

  // Joins the end `v` to every vertex and every leg within the tolerance.
  void meet(int v) {
    const Point at = vertices_[static_cast<std::size_t>(v)].at;
    if (v != 0 && distance(at, vertices_[0].at) <= tolerance_) unite(v, 0);
    for (const int path : grid_.near(at, tolerance_)) {
      meet_vertices(v, at, static_cast<std::size_t>(path));
      meet_legs(v, at, static_cast<std::size_t>(path));
    }
  }

  void meet_vertices(int v, Point at, std::size_t path) {
    const JointedPath& other = paths_[path];
    for (std::size_t i = 0; i < other.joint.size(); ++i) {
      const int candidate = other.joint[i];
      if (candidate == v || vertices_[static_cast<std::size_t>(candidate)].outlet) continue;
      const bool neighbour =
          (i > 0 && other.joint[i - 1] == v) || (i + 1 < other.joint.size() && other.joint[i + 1] == v);
      if (!neighbour && distance(at, other.at[i]) <= tolerance_) unite(v, candidate);
    }
  }

  void meet_legs(int v, Point at, std::size_t path) {
    JointedPath& other = paths_[path];
    for (std::size_t i = 0; i + 1 < other.at.size(); ++i) {
      if (find(other.joint[i]) == find(v) || find(other.joint[i + 1]) == find(v)) continue;
      const Nearest nearest = nearest_on_segment(at, other.at[i], other.at[i + 1]);
      if (nearest.away > tolerance_ || nearest.at == other.at[i] || nearest.at == other.at[i + 1]) continue;
      const int middle = add_vertex({nearest.at, static_cast<int>(path), false, false});
      const auto where = static_cast<std::ptrdiff_t>(i) + 1;
      const Length along = other.along[i] + distance(other.at[i], nearest.at);
      other.at.insert(other.at.begin() + where, nearest.at);
      other.joint.insert(other.joint.begin() + where, middle);
      other.along.insert(other.along.begin() + where, along);
      other.roles.insert(other.roles.begin() + where, other.roles[i]);
      other.places.insert(other.places.begin() + where, other.places[i]);
      unite(v, middle);
      ++i;
    }
  }

  // Joints are numbered as first met; each stands where a point inside a path stands, so that ends come to it.
  Joints result() {
    Joints joints;
    std::vector<int> number(vertices_.size(), -1);
    std::vector<bool> inside;
    const auto joint_of = [&](int v) {
      const auto root = static_cast<std::size_t>(find(v));
      if (number[root] < 0) {
        number[root] = static_cast<int>(joints.at.size());
        joints.at.push_back(vertices_[static_cast<std::size_t>(v)].at);
        inside.push_back(!vertices_[static_cast<std::size_t>(v)].end);
      }
      const auto joint = static_cast<std::size_t>(number[root]);
      if (!inside[joint] && !vertices_[static_cast<std::size_t>(v)].end) {
        joints.at[joint] = vertices_[static_cast<std::size_t>(v)].at;
        inside[joint] = true;
      }
      return number[root];
    };
    joints.source = joint_of(0);
    inside[0] = true;  // the tap stands where it stands
    for (JointedPath& path : paths_) {
      for (int& joint : path.joint) joint = joint_of(joint);
    }
    joints.paths = std::move(paths_);
    return joints;
  }

  Length tolerance_;
  Grid grid_;
  std::vector<Vertex> vertices_;
  std::vector<int> parent_;
  std::vector<JointedPath> paths_;
};

}  // namespace

Joints join_paths(const std::vector<Path>& paths, Point source, Length tolerance) {
  return Joiner(paths, source, tolerance).joined();
}

}  // namespace teetally::garden
