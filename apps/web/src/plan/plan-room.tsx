import type { DrawnRoom } from './drawing.ts';
import { boxAround, boxCentre } from './geometry.ts';
import { lineHeight, type RoomWords } from './plan-words.ts';
import { closed } from './ribbon-shape.ts';
import { Spot } from './spot.tsx';
import { Unsaid } from './unsaid.tsx';

/** A room, shaded by the share of its air that it gets. Its words are drawn above the ribbons. */
export const PlanRoom = ({
  room,
  name,
  chosen,
  reachable,
}: {
  room: DrawnRoom;
  name: string;
  chosen: boolean;
  reachable: boolean;
}) => (
  <Spot id={`room/${room.id}`} label={name} chosen={chosen} reachable={reachable} className="room">
    <path d={closed(room.outline)} className={`band-${room.standing.band}`} />
  </Spot>
);

export const PlanRoomWords = ({ room, words }: { room: DrawnRoom; words: RoomWords }) => {
  const { box, text, inside } = words;
  const [cx, cy] = boxCentre(boxAround(room.outline));
  return (
    <Unsaid className={`room-words ${inside ? `on-${room.standing.band}` : 'on-paper'}`}>
      {!inside && (
        <>
          <path className="leader" d={`M${box.x + box.width / 2} ${box.y + box.height / 2}L${cx} ${cy}`} />
          <rect
            className="words-ground"
            x={box.x - 4}
            y={box.y - 2}
            width={box.width + 8}
            height={box.height + 3}
            rx="4"
          />
        </>
      )}
      {[...text.name, ...text.figures].map((line, i) => (
        <text
          key={line}
          x={box.x + 1}
          y={box.y + 12 + i * lineHeight}
          fontWeight={i < text.name.length ? 700 : 400}
        >
          {line}
        </text>
      ))}
    </Unsaid>
  );
};
