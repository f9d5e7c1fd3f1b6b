/** Hatching of return ducts, to fill shapes with by its id. */
export const HatchPattern = ({ id }: { id: string }) => (
  <defs>
    <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <rect width="6" height="6" className="hatch-ground" />
      <path d="M1 0V6" className="hatch-line" />
    </pattern>
  </defs>
);
