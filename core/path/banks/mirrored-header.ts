/** A whole header of the other hand. */

import type { Header } from '../../header/header.ts';
import { vectorOfPlace } from '../frame.ts';
import { mirroredCollector, mirroredObstacle, mirroredPrimary, type SoundPlane, VEHICLE_MIDDLE } from './mirror.ts';

const MIDDLE: SoundPlane = { point: vectorOfPlace(VEHICLE_MIDDLE.at), normal: VEHICLE_MIDDLE.normal };

/**
 * The header as it is on the other side of the vehicle: ports, inlets and obstacles with a place are reflected in the plane of the
 * vehicle's middle, and clockings change their sign. Lengths, angles, radii and gaps stay. Doing it twice changes nothing.
 */
export function mirroredHeader(header: Header): Header {
  return {
    ...header,
    primaries: header.primaries.map((primary) => mirroredPrimary(primary, MIDDLE)),
    collectors: header.collectors.map((collector) => mirroredCollector(collector, MIDDLE)),
    obstacles: header.obstacles.map((obstacle) => mirroredObstacle(obstacle, MIDDLE)),
  };
}
