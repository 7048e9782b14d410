import { codeOf, LEVELS, limitedCode } from '../../src/fields/levels';

/** The signal levels of the fields, and what a limited-range link makes of them. */
export function Levels() {
  return (
    <section aria-labelledby="levels">
      <h2 id="levels">Signal levels</h2>
      <p>
        All fields are in full range: code values 0 to 255 of sRGB, black 0, white 255; red, green and blue
        are 255 in one channel and 0 in the others. A link in limited range carries 16 to 235 instead. Set the
        computer’s output and the projector’s input alike: if only one of them is limited, black turns grey
        and white falls short, or steps near black and white run together. Colour profiles, night light and
        high dynamic range change the values as well; switch them off.
      </p>
      <table>
        <caption>Steps of the field for black and white levels</caption>
        <thead>
          <tr>
            <th scope="col">Signal, %</th>
            <th scope="col">Full range, drawn here</th>
            <th scope="col">Limited range</th>
          </tr>
        </thead>
        <tbody>
          {LEVELS.flat().map((percent) => (
            <tr key={percent}>
              <th scope="row">{percent}</th>
              <td>{codeOf(percent)}</td>
              <td>{limitedCode(codeOf(percent))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
