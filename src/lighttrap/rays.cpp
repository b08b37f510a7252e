// SPDX-License-Identifier: MIT
#include "lighttrap/rays.hpp"

#include <embree3/rtcore.h>

#include <algorithm>
#include <cassert>
#include <limits>
#include <stdexcept>

namespace backfit::ray {

struct Kernel::Handles {
  RTCDevice device = nullptr;
  RTCScene scene = nullptr;
  Vec middle;  // of the points: single precision is finest about 0
};

Kernel::Kernel(std::span<const Vec> points, std::span<const std::array<std::uint32_t, 3>> triangles)
    : handles_(std::make_unique<Handles>()) {
  handles_->device = rtcNewDevice("threads=1");
  if (handles_->device == nullptr) throw std::runtime_error("the ray kernel does not start");
  handles_->scene = rtcNewScene(handles_->device);
  rtcSetSceneFlags(handles_->scene, RTC_SCENE_FLAG_ROBUST);
  rtcSetSceneBuildQuality(handles_->scene, RTC_BUILD_QUALITY_HIGH);
  RTCGeometry geometry = rtcNewGeometry(handles_->device, RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* corners = static_cast<float*>(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), points.size()));
  auto* indices = static_cast<std::uint32_t*>(
      rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                              3 * sizeof(std::uint32_t), triangles.size()));
  Vec low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (const Vec& p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
  handles_->middle = 0.5 * (low + high);
  for (const Vec& point : points) {
    const Vec p = point - handles_->middle;
    *corners++ = static_cast<float>(p.x);
    *corners++ = static_cast<float>(p.y);
    *corners++ = static_cast<float>(p.z);
  }
  for (const auto& t : triangles) indices = std::copy(t.begin(), t.end(), indices);
  rtcCommitGeometry(geometry);
  rtcAttachGeometry(handles_->scene, geometry);
  rtcReleaseGeometry(geometry);
  rtcCommitScene(handles_->scene);
  if (rtcGetDeviceError(handles_->device) != RTC_ERROR_NONE) {
    throw std::runtime_error("the ray kernel can't take these surfaces");
  }
}

Kernel::~Kernel() {
  if (!handles_) return;
  rtcReleaseScene(handles_->scene);
  rtcReleaseDevice(handles_->device);
}
Kernel::Kernel(Kernel&&) noexcept = default;

std::optional<Meeting> Kernel::first(Vec at, Vec direction) const {
  const Vec from = at - handles_->middle;
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit ray{};
  ray.ray.org_x = static_cast<float>(from.x);
  ray.ray.org_y = static_cast<float>(from.y);
  ray.ray.org_z = static_cast<float>(from.z);
  ray.ray.dir_x = static_cast<float>(direction.x);
  ray.ray.dir_y = static_cast<float>(direction.y);
  ray.ray.dir_z = static_cast<float>(direction.z);
  ray.ray.tfar = std::numeric_limits<float>::infinity();
  ray.ray.mask = ~0U;
  ray.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(handles_->scene, &context, &ray);
  if (ray.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
  return Meeting{ray.hit.primID, ray.hit.u, ray.hit.v, ray.ray.tfar};
}

void Kernel::first(std::span<const Ray> rays, std::span<std::optional<Meeting>> met) const {
  assert(rays.size() <= packet && met.size() == rays.size());
  if (rays.size() == 1) {
    met[0] = first(rays[0].from, rays[0].direction);
    return;
  }
  static_assert(packet == 8);
  alignas(32) std::array<int, packet> valid{};
  RTCRayHit8 p;  // not cleared: to do so takes a tenth of the rays' time
  for (std::size_t i = 0; i < rays.size(); ++i) {
    const Vec from = rays[i].from - handles_->middle, direction = rays[i].direction;
    valid[i] = -1;
    p.ray.org_x[i] = static_cast<float>(from.x);
    p.ray.org_y[i] = static_cast<float>(from.y);
    p.ray.org_z[i] = static_cast<float>(from.z);
    p.ray.tnear[i] = 0;
    p.ray.time[i] = 0;
    p.ray.flags[i] = 0;
    p.ray.dir_x[i] = static_cast<float>(direction.x);
    p.ray.dir_y[i] = static_cast<float>(direction.y);
    p.ray.dir_z[i] = static_cast<float>(direction.z);
    p.ray.tfar[i] = std::numeric_limits<float>::infinity();
    p.ray.mask[i] = ~0U;
    p.hit.geomID[i] = RTC_INVALID_GEOMETRY_ID;
  }
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect8(valid.data(), handles_->scene, &context, &p);
  for (std::size_t i = 0; i < rays.size(); ++i) {
    met[i].reset();
    if (p.hit.geomID[i] == RTC_INVALID_GEOMETRY_ID) continue;
    met[i] = Meeting{p.hit.primID[i], p.hit.u[i], p.hit.v[i], p.ray.tfar[i]};
  }
}

void Kernel::near(Vec at, double radius_mm, const std::function<void(std::uint32_t)>& name) const {
  const Vec from = at - handles_->middle;
  RTCPointQuery query{static_cast<float>(from.x), static_cast<float>(from.y),
                      static_cast<float>(from.z), 0, static_cast<float>(radius_mm)};
  RTCPointQueryContext context;
  rtcInitPointQueryContext(&context);
  const auto told = [](RTCPointQueryFunctionArguments* found) {
    (*static_cast<const std::function<void(std::uint32_t)>*>(found->userPtr))(found->primID);
    return false;  // the radius stays
  };
  rtcPointQuery(handles_->scene, &query, &context, told,
                const_cast<std::function<void(std::uint32_t)>*>(&name));
}

}  // namespace backfit::ray
